import { StandingMark } from './marks.tsx'

/** The key to the marks on the charts. */
export function FlagKey() {
  return (
    <>
      <p class="faint">Point at a line, or tap it, to read a single value; arrow keys walk along it.</p>
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
      </ul>
    </>
  )
}
