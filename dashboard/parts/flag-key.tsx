import { pathTo } from '../router.ts'
import { DoneMark, StandingMark } from './marks.tsx'

/** The key to the marks on the charts. */
export function FlagKey({ survey, hasNights }: { survey: string; hasNights: boolean }) {
  return (
    <>
      <p class="faint">
        Point at a line, or tap it, to read a single value; arrow keys walk along it. To leave readings out or
        accept suspect ones, draw a span with the mouse or use the button under a chart.
      </p>
      <ul class="worries key" aria-label="Marks on the charts">
        <li class="tag tag-suspect">
          <StandingMark standing="suspect" />
          suspect
        </li>
        <li class="tag tag-fail">
          <StandingMark standing="fail" />
          fail, left out of the line
        </li>
        <li class="tag">
          <span class="band-sample" />
          95 in 100 (k = 2), where known
        </li>
        <li class="tag">
          <svg viewBox="0 0 34 10" width="34" height="10" aria-hidden="true">
            <path d="M0 6h11M23 3h11" fill="none" stroke="currentColor" stroke-width="2" />
          </svg>
          gap: nothing arrived
        </li>
        <li class="tag">
          <DoneMark kind="calibration" />
          calibrated
        </li>
        <li class="tag">
          <DoneMark kind="placement" />
          placed or lifted
        </li>
        <li class="tag">
          <span class="left-out-sample" />
          left out by hand
        </li>
        <li class="tag tag-good">
          <svg viewBox="0 0 34 14" width="34" height="14" aria-hidden="true">
            <path d="M1 12h32M6 6l3 3 6-8M20 6l3 3 6-8" fill="none" stroke="currentColor" stroke-width="2" />
          </svg>
          suspect ones accepted
        </li>
        {hasNights && (
          <li class="tag">
            <span class="night-sample" />
            night
          </li>
        )}
        <li>
          <a class="lesser" href={pathTo.quality(survey)}>
            What do these tests mean?
          </a>
        </li>
      </ul>
    </>
  )
}
