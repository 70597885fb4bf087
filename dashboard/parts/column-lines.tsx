import { readColumns } from '../../hub/contract/read-columns.ts'
import type { ColumnMap } from '../../hub/contract/survey.ts'
import { signalText } from '../format.ts'

/** How the board’s last lines are read by a map, as the hub itself would. */
export function ColumnLines({ lines, map }: { lines: readonly string[]; map: ColumnMap | null }) {
  if (lines.length === 0) return <p class="field-hint">No line of it is kept to try the map on.</p>
  return (
    <div class="column-lines" aria-live="polite">
      <h5>Its last lines, read so</h5>
      <ul>
        {lines.map((line) => {
          const read = map === null ? null : readColumns(line, map)
          return (
            <li key={line} data-read={Array.isArray(read) ? 'yes' : 'no'}>
              <code>{line}</code>
              {read === null ? (
                <span>the map is not complete</span>
              ) : Array.isArray(read) ? (
                <span>
                  ✓{' '}
                  {read.map(({ channel, unit, value }) => `${channel} ${signalText(value, unit)}`).join(', ')}
                </span>
              ) : (
                <span class="tag-fail">✕ {read.message}</span>
              )}
            </li>
          )
        })}
      </ul>
    </div>
  )
}
