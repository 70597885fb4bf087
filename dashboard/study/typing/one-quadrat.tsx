import { useRef, useState } from 'preact/hooks'
import type { GridProps } from './grid-props.ts'
import { coverSum } from './typing-grid.ts'

/** On a phone: the species of one quadrat under each other, then the next quadrat. */
export function OneQuadrat({ grid, quadrats, onName, onCell, onOneMore }: GridProps) {
  const [at, setAt] = useState(0)
  const list = useRef<HTMLUListElement>(null)
  const label = quadrats[Math.min(at, quadrats.length - 1)] ?? ''
  const sum = coverSum(grid, label)
  const below = (event: KeyboardEvent, row: number) => {
    if (event.key !== 'Enter') return
    event.preventDefault()
    list.current?.querySelector<HTMLInputElement>(`[data-value="${row + 1}"]`)?.focus()
  }
  const turnTo = (place: number) => {
    setAt(place)
    list.current?.querySelector<HTMLInputElement>('[data-value="0"]')?.focus()
  }
  return (
    <section class="one-quadrat">
      <div class="one-quadrat-head">
        <button type="button" class="plain" disabled={at === 0} onClick={() => turnTo(at - 1)}>
          ‹<span class="unseen"> quadrat before</span>
        </button>
        <label>
          <span class="unseen">Quadrat</span>
          <select value={String(at)} onChange={(event) => setAt(Number(event.currentTarget.value))}>
            {quadrats.map((each, place) => (
              <option key={each} value={String(place)}>
                {each}
              </option>
            ))}
          </select>
        </label>
        <button
          type="button"
          class="plain"
          disabled={at >= quadrats.length - 1}
          onClick={() => turnTo(at + 1)}
        >
          ›<span class="unseen"> next quadrat</span>
        </button>
      </div>
      <ul ref={list}>
        {grid.rows.map((row, place) => (
          <li key={place}>
            <input
              aria-label={`Species ${place + 1}`}
              placeholder={`species ${place + 1}`}
              autoComplete="off"
              value={row.name}
              onInput={(event) => onName(place, event.currentTarget.value)}
            />
            <input
              data-value={place}
              aria-label={`${row.name || `Species ${place + 1}`} in ${label}`}
              autoComplete="off"
              enterkeyhint="next"
              value={row.cells[label] ?? ''}
              onInput={(event) => onCell(place, label, event.currentTarget.value)}
              onKeyDown={(event) => below(event, place)}
            />
          </li>
        ))}
      </ul>
      {sum !== null && (
        <p class={sum > 200 ? 'is-fault' : ''}>
          {label} adds up to {sum} %{sum > 200 ? ': look for a wrong number' : ''}
        </p>
      )}
      <button type="button" class="take plain" onClick={onOneMore}>
        + one more species
      </button>
    </section>
  )
}
