import type { QuadratSummary, StudySummary } from '../../../hub/contract/study.ts'
import { numberText } from '../../format.ts'
import { ScrollBox } from '../scroll-box.tsx'
import { knownInterval } from './known-interval.ts'
import type { SummaryColumn } from './summary-columns.ts'
import { valueWithUncertainty } from './value-with-uncertainty.ts'

interface Props {
  quadrats: StudySummary['quadrats']
  columns: readonly SummaryColumn[]
  opened: QuadratSummary | null
  onOpen: (summary: QuadratSummary) => void
}

/** Quadrats down, factors across; each cell opens all its numbers. */
export function SummaryTable({ quadrats, columns, opened, onOpen }: Props) {
  return (
    <ScrollBox name="Summary of each quadrat">
      <table class="study-table summary-table">
        <thead>
          <tr>
            <th scope="col">Quadrat</th>
            {columns.map(({ key, label, how }) => (
              <th key={key} scope="col">
                {label}
                {how !== '' && <small>{how}</small>}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {quadrats.map(({ label, zone, place }) => (
            <tr key={label}>
              <th scope="row">
                {label}
                <small class="summary-place">{[zone, place].filter(Boolean).join(' · ')}</small>
              </th>
              {columns.map(({ key, label: of, ofQuadrat }) => {
                const summary = ofQuadrat.get(label)
                return (
                  <td key={key}>
                    {summary ? (
                      <SummaryCell
                        of={of}
                        summary={summary}
                        isOpen={summary.quadrat === opened?.quadrat && summary === opened}
                        onOpen={onOpen}
                      />
                    ) : (
                      <span class="study-none">no clean value</span>
                    )}
                  </td>
                )
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </ScrollBox>
  )
}

function SummaryCell(props: {
  of: string
  summary: QuadratSummary
  isOpen: boolean
  onOpen: (summary: QuadratSummary) => void
}) {
  const { of, summary, isOpen, onOpen } = props
  const { quantity, unit, value, statistic, n, received } = summary
  const { half, part } = knownInterval(summary)
  const shown = valueWithUncertainty(quantity, unit, value, half)
  return (
    <button
      type="button"
      class="summary-cell"
      aria-expanded={isOpen}
      aria-label={`${of} at ${summary.quadrat}: all numbers`}
      data-summary={`${summary.quadrat} ${quantity}`}
      onClick={() => onOpen(summary)}
    >
      <span class="summary-value">
        {shown.value}
        {shown.plusMinus !== null && <> ± {shown.plusMinus}</>} {shown.unit === 'pH' ? '' : shown.unit}
        {shown.plusMinus === null ? <small> ± not known</small> : part !== '' && <small> ({part})</small>}
      </span>
      <small class="summary-how">
        {statistic}, used {numberText(n, 0)} of {numberText(received, 0)}
      </small>
    </button>
  )
}
