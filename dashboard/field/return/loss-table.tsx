import type { BoardLoss } from '../../../hub/contract/field.ts'
import { numberText } from '../../format.ts'

/** Messages that never came, by board, as its own numbers tell. */
export function LossTable({ loss }: { loss: readonly BoardLoss[] }) {
  if (loss.length === 0) return null
  return (
    <section class="field-block">
      <h2>Messages lost</h2>
      <table class="gap-table">
        <thead>
          <tr>
            <th scope="col">Board</th>
            <th scope="col">Received</th>
            <th scope="col">Missed</th>
            <th scope="col">Lost</th>
          </tr>
        </thead>
        <tbody>
          {loss.map(({ board, messages, missed, share }) => (
            <tr key={board}>
              <th scope="row">{board}</th>
              <td>{numberText(messages, 0)}</td>
              <td>{numberText(missed, 0)}</td>
              <td>{missed === 0 ? 'none' : `${numberText(share * 100, 1)} %`}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="field-hint-line">
        Since the hub was started; a board that does not number its messages cannot miss one.
      </p>
    </section>
  )
}
