import type { CompletenessCell } from '../../../hub/contract/field.ts'
import { siteZone } from '../../current-survey.ts'
import { dayText, minuteText, spanText } from '../../format-time.ts'
import { quantityWords } from '../../quantities.ts'
import { gapLines } from './gap-lines.ts'

const SHOWN_AT_MOST = 200

/** Every gap to the minute; gaps that all channels of a board share are one line. */
export function GapList({ cells }: { cells: readonly CompletenessCell[] }) {
  const zone = siteZone.value
  const lines = gapLines(cells)
  return (
    <section class="field-block">
      <h2>Gaps</h2>
      {lines.length === 0 ? (
        <p>None: no probe that stood at a quadrat paused for longer than two and a half of its intervals.</p>
      ) : (
        <table class="gap-table">
          <thead>
            <tr>
              <th scope="col">Quadrat</th>
              <th scope="col">From</th>
              <th scope="col">To</th>
              <th scope="col">How long</th>
              <th scope="col">What</th>
            </tr>
          </thead>
          <tbody>
            {lines.slice(0, SHOWN_AT_MOST).map(({ quadrat, board, fromMs, toMs, quantities }) => (
              <tr key={`${quadrat} ${board} ${fromMs} ${toMs}`}>
                <th scope="row">{quadrat}</th>
                <td>
                  {dayText(fromMs, zone)}, {minuteText(fromMs, zone)}
                </td>
                <td>
                  {dayText(fromMs, zone) === dayText(toMs, zone) ? '' : `${dayText(toMs, zone)}, `}
                  {minuteText(toMs, zone)}
                </td>
                <td>{spanText(toMs - fromMs)}</td>
                <td>
                  {board}: {quantities.map((name) => quantityWords(name).short).join(', ')}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {lines.length > SHOWN_AT_MOST && <p>and {lines.length - SHOWN_AT_MOST} more.</p>}
    </section>
  )
}
