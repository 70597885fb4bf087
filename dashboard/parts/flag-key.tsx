import { pathTo } from '../router.ts'
import { DoneMark, StandingMark } from './marks.tsx'

/** The key to the marks on the charts. */
export function FlagKey({ survey, hasNights }: { survey: string; hasNights: boolean }) {
  return (
    <>
      <p class="faint">
        Point at a line, or tap it, to read a single value; arrow keys walk along it. Draw a span with the
        mouse to decide on it by hand.
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
