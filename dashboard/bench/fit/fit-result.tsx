import type { Advice } from '../../../calibration/index.ts'
import type { Attempt } from './attempt.ts'
import { BudgetPanel } from './budget-panel.tsx'
import { CurvePlot } from './curve-plot.tsx'
import { FactList } from './fact-list.tsx'
import type { PlotPoint } from './plot-points.ts'
import { VerdictMark } from './verdict-mark.tsx'

/** What the points make so far: verdict, what to do about it, facts, curve, and how sure a value is. */
export function FitResult(props: {
  attempt: Attempt
  points: readonly PlotPoint[]
  signalUnit: string
  live: number | null
  more: readonly Advice[]
  onSwap: () => void
}) {
  const { attempt, points, signalUnit, live } = props
  if (attempt.kind === 'none') {
    return (
      <section class="result">
        <h2>The curve</h2>
        <p class={attempt.isFault ? 'bench-warning' : 'result-empty'} role="status">
          {attempt.why}
        </p>
      </section>
    )
  }
  const { fitted } = attempt
  const advice = [...fitted.advice, ...props.more]
  return (
    <section class="result">
      <h2>
        Verdict: <VerdictMark verdict={fitted.verdict} isLarge />
      </h2>
      {advice.length > 0 && (
        <ul class="advice">
          {advice.map(({ code, text }) => (
            <li key={code} data-advice={code}>
              {text}
              {code === 'buffers-swapped' && (
                <p>
                  <button type="button" class="plain" onClick={props.onSwap}>
                    Swap the two buffers
                  </button>
                </p>
              )}
            </li>
          ))}
        </ul>
      )}
      <FactList facts={fitted.facts} />
      <CurvePlot fitted={fitted} points={points} signalUnit={signalUnit} live={live} />
      {fitted.verdict === 'fail' ? (
        <p class="result-empty">
          How sure a value is would say nothing here: values of this curve should not be used.
        </p>
      ) : (
        <BudgetPanel {...{ fitted, points, signalUnit, live }} />
      )}
    </section>
  )
}
