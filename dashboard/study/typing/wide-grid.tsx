import { useRef } from 'preact/hooks'
import type { GridProps } from './grid-props.ts'
import { coverSum } from './typing-grid.ts'
import { type BoxPlace, moveFrom } from './typing-moves.ts'

/** The whole sheet: arrows and Enter go from box to box, Tab as everywhere. */
export function WideGrid({ grid, quadrats, onName, onCell, onOneMore }: GridProps) {
  const table = useRef<HTMLTableElement>(null)
  const goToBox = ({ row, column }: BoxPlace) => {
    const box = table.current?.querySelector<HTMLInputElement>(`[data-box="${row} ${column}"]`)
    box?.focus()
    box?.select()
  }
  const onKeyDown = (event: KeyboardEvent, place: BoxPlace) => {
    const box = event.currentTarget as HTMLInputElement
    const caret = { start: box.selectionStart ?? 0, end: box.selectionEnd ?? 0, length: box.value.length }
    const size = { rows: grid.rows.length, columns: quadrats.length }
    const next = moveFrom(place, event.key, size, caret)
    if (event.key === 'Enter') event.preventDefault()
    if (!next) return
    event.preventDefault()
    goToBox(next)
  }
  const sums = quadrats.map((label) => coverSum(grid, label))
  return (
    <div class="study-scroll">
      <table class="typing" ref={table}>
        <thead>
          <tr>
            <th scope="col">Species</th>
            {quadrats.map((label) => (
              <th key={label} scope="col">
                {label}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {grid.rows.map((row, place) => (
            <tr key={place}>
              <th scope="row">
                <input
                  class="typing-name"
                  data-box={`${place} -1`}
                  aria-label={`Species ${place + 1}`}
                  autoComplete="off"
                  value={row.name}
                  onInput={(event) => onName(place, event.currentTarget.value)}
                  onKeyDown={(event) => onKeyDown(event, { row: place, column: -1 })}
                />
              </th>
              {quadrats.map((label, column) => (
                <td key={label}>
                  <input
                    data-box={`${place} ${column}`}
                    aria-label={`${row.name || `Species ${place + 1}`} in ${label}`}
                    autoComplete="off"
                    inputMode="decimal"
                    value={row.cells[label] ?? ''}
                    onInput={(event) => onCell(place, label, event.currentTarget.value)}
                    onKeyDown={(event) => onKeyDown(event, { row: place, column })}
                  />
                </td>
              ))}
            </tr>
          ))}
        </tbody>
        {sums.some((sum) => sum !== null) && (
          <tfoot>
            <tr>
              <th scope="row">adds up to</th>
              {sums.map((sum, column) => (
                <td key={quadrats[column]} class={(sum ?? 0) > 200 ? 'is-fault' : ''}>
                  {(sum ?? 0) > 200 ? '✕ ' : ''}
                  {sum === null ? '' : `${sum} %`}
                </td>
              ))}
            </tr>
          </tfoot>
        )}
      </table>
      <button type="button" class="take plain" onClick={onOneMore}>
        + one more species
      </button>
    </div>
  )
}
