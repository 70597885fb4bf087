import { useState } from 'preact/hooks'
import type { Fitted } from '../../../calibration/index.ts'
import { signalDecimals, signalWithUnit } from '../hold/signal-digits.ts'
import { BUDGET_WORDS, budgetAt } from './budget-words.ts'
import { signalStretch } from './plot-geometry.ts'
import type { PlotPoint } from './plot-points.ts'
import { benchDigits, uncertaintyDigits, withExpanded, withValueUnit } from './value-digits.ts'

/** How sure a value is and why, at a signal that can be chosen. */
export function BudgetPanel(props: {
  fitted: Fitted
  points: readonly PlotPoint[]
  signalUnit: string
  live: number | null
}) {
  const { fitted, points, signalUnit, live } = props
  const [chosen, choose] = useState<number | null>(null)
  const [low, high] = signalStretch(fitted, points, null)
  const middle = (low + high) / 2
  const signal = chosen ?? (live !== null && live >= low && live <= high ? live : middle)
  const value = fitted.valueAt(signal)
  const budget = budgetAt(fitted, signal, null)
  const decimals = signalDecimals(signalUnit)
  return (
    <section class="budget">
      <h3>How sure is a value?</h3>
      <label class="budget-slide">
        <span>
          At a signal of <b class="figures">{signalWithUnit(signal, signalUnit)}</b>
          {chosen === null && signal === live ? ' (now)' : ''}
        </span>
        <input
          type="range"
          name="budgetSignal"
          min={low}
          max={high}
          step={10 ** -decimals}
          value={signal}
          onInput={(event) => choose(Number(event.currentTarget.value))}
        />
      </label>
      {!('value' in value) ? (
        <p>{value.message}</p>
      ) : budget === null ? (
        <p>
          The value is {withValueUnit(benchDigits(value.value, null, fitted.unit), fitted.unit)}. How sure it
          is cannot be known from these points.
        </p>
      ) : (
        <>
          <p class="budget-value">
            <b class="figures">{withExpanded(value.value, budget.expanded, fitted.unit)}</b> 95 times in 100
          </p>
          <p>{budget.dominant}</p>
          <BudgetTable {...{ budget, unit: fitted.unit }} />
        </>
      )}
    </section>
  )
}

export function BudgetTable({
  budget,
  unit,
}: {
  budget: NonNullable<ReturnType<typeof budgetAt>>
  unit: string
}) {
  const written = unit === 'pH' ? 'pH' : withValueUnit('', unit).trim()
  return (
    <table class="budget-table">
      <thead>
        <tr>
          <th scope="col">Comes from</th>
          <th scope="col">Standard uncertainty{written === '' ? '' : `, ${written}`}</th>
          <th scope="col">Share</th>
        </tr>
      </thead>
      <tbody>
        {budget.lines.map(({ name, standardUncertainty, share }) => (
          <tr key={name}>
            <th scope="row">{BUDGET_WORDS[name]}</th>
            <td class="figures">{uncertaintyDigits(standardUncertainty, unit)}</td>
            <td>
              <span class="share" aria-hidden="true">
                <span style={{ width: `${Math.max(1, share * 100)}%` }} />
              </span>
              <span class="figures">{share < 0.005 ? '< 1' : Math.round(share * 100)} %</span>
            </td>
          </tr>
        ))}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row">together</th>
          <td class="figures">{uncertaintyDigits(budget.standardUncertainty, unit)}</td>
          <td>
            ×&nbsp;{budget.coverage.toFixed(2)} gives ±&nbsp;{uncertaintyDigits(budget.expanded, unit)}
          </td>
        </tr>
      </tfoot>
    </table>
  )
}
