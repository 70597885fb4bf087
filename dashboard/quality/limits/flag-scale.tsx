import { StandingMark } from '../../parts/marks.tsx'

/** The flags and what they mean for the clean readings. */
export function FlagScale() {
  return (
    <dl class="flag-scale">
      <div>
        <dt class="tag tag-good">
          <StandingMark standing="clean" />1 pass
        </dt>
        <dd>No test found anything: clean.</dd>
      </div>
      <div>
        <dt class="tag tag-uncalibrated">
          <StandingMark standing="unchecked" />2 not evaluated
        </dt>
        <dd>No test could run, for want of neighbours or of a place: clean all the same.</dd>
      </div>
      <div>
        <dt class="tag tag-suspect">
          <StandingMark standing="suspect" />3 suspect
        </dt>
        <dd>Odd, but possible: left out until somebody has looked and accepts it with a reason.</dd>
      </div>
      <div>
        <dt class="tag tag-fail">
          <StandingMark standing="fail" />4 fail
        </dt>
        <dd>The sensor cannot have measured this: left out for good.</dd>
      </div>
    </dl>
  )
}
