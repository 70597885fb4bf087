import type { Completeness, CompletenessCell } from '../../../hub/contract/field.ts'
import { valueText } from '../../format.ts'
import { oneMethodText } from '../../parts/method-text.ts'
import { quantityWords } from '../../quantities.ts'
import { cellSentence, shortCell } from './cell-words.ts'

/** Full, half and empty: told apart in black and white, and by a photocopier. */
const SHAPES: Readonly<Record<CompletenessCell['state'], string>> = {
  complete: 'M2 2h12v12H2Z',
  partly: 'M2 2h12v12H2ZM2 14 14 2',
  missing: 'M2 2h12v12H2Z',
  'not wanted': '',
}

/** Quadrats down, quantities across; each cell with its shape, its count and what is wrong. */
export function Matrix({ completeness }: { completeness: Completeness }) {
  const { quadrats, wanted, cells } = completeness
  const columns = wanted.length
  return (
    <div class="matrix-scroll">
      <table class="matrix">
        <caption class="unseen">Completeness by quadrat and quantity</caption>
        <thead>
          <tr>
            <th scope="col">Quadrat</th>
            {wanted.map((each, index) => (
              <th scope="col" key={index}>
                {quantityWords(each.quantity).short}
                <small>
                  {oneMethodText(each.method)} {each.by === 'carried' ? `× ${each.replicates}` : 'logging'}
                </small>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {quadrats.map((label, row) => (
            <tr key={label}>
              <th scope="row">{label}</th>
              {cells.slice(row * columns, (row + 1) * columns).map((cell, index) => (
                <MatrixCell key={index} cell={cell} />
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      <p class="matrix-key">
        <StateMark state="complete" /> complete <StateMark state="partly" /> partly{' '}
        <StateMark state="missing" /> missing; – not wanted
      </p>
    </div>
  )
}

function MatrixCell({ cell }: { cell: CompletenessCell }) {
  return (
    <td
      data-cell={`${cell.quadrat} ${cell.quantity}`}
      data-state={cell.state}
      class={`cell-${cell.state.replace(' ', '-')}`}
    >
      <span class="matrix-count">
        {cell.state !== 'not wanted' && <StateMark state={cell.state} />} <b>{shortCell(cell)}</b>
      </span>
      {cell.last && <small>{valueText(cell.quantity, cell.last.unit, cell.last.value, null)}</small>}
      {cell.state !== 'not wanted' && cell.state !== 'complete' && <small>{cellSentence(cell)}</small>}
      {cell.state === 'complete' && cell.remarks.length > 0 && <small>{cell.remarks.join('; ')}</small>}
    </td>
  )
}

function StateMark({ state }: { state: CompletenessCell['state'] }) {
  return (
    <svg
      class={`state-mark state-mark-${state}`}
      viewBox="0 0 16 16"
      width="15"
      height="15"
      role="img"
      aria-label={state}
    >
      <path d={SHAPES[state]} />
    </svg>
  )
}
