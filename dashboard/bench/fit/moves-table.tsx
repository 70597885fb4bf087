import type { QuadratMove } from '../../../hub/contract/readiness.ts'
import { countText, numberText } from '../../format.ts'
import { quantityWords } from '../../quantities.ts'
import { differenceText, readingDigits, withValueUnit } from './value-digits.ts'

/** Per quadrat: the mean before and after, and how far single readings move. Nothing has been changed yet. */
export function MovesTable({ moves }: { moves: readonly QuadratMove[] }) {
  if (moves.length === 0) {
    return (
      <p class="moves-none" role="status">
        No reading kept so far would change: it counts for what comes from then on.
      </p>
    )
  }
  const readings = moves.reduce((sum, move) => sum + move.readings, 0)
  return (
    <>
      <p role="status">
        {countText(readings, 'reading')} at {countText(moves.length, 'place')} would be worked out again.
      </p>
      <div class="moves-scroll">
        <table class="moves">
          <thead>
            <tr>
              <th scope="col">Quadrat</th>
              <th scope="col">Mean before → after</th>
              <th scope="col">Single readings move</th>
              <th scope="col">Readings</th>
            </tr>
          </thead>
          <tbody>
            {moves.map((move) => (
              <tr key={`${move.quadrat} ${move.quantity}`}>
                <th scope="row">
                  {move.quadrat} <small>{quantityWords(move.quantity).short}</small>
                </th>
                <td class="figures">
                  {meanText(move.meanBefore, move)} → {meanText(move.meanAfter, move)}
                </td>
                <td class="figures">{moveText(move)}</td>
                <td>
                  {numberText(move.readings, 0)}
                  <small>
                    {' '}
                    clean {numberText(move.valuesBefore, 0)} → {numberText(move.valuesAfter, 0)}
                  </small>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  )
}

function meanText(mean: number | null, { unit }: QuadratMove): string {
  return mean === null ? 'none' : withValueUnit(readingDigits(mean, unit), unit)
}

function moveText({ smallestMove, largestMove, unit }: QuadratMove): string {
  if (smallestMove === null || largestMove === null) return 'no value before or after'
  const [one, other] = [differenceText(smallestMove, unit), differenceText(largestMove, unit)]
  return one === other ? one : `${one} to ${other}`
}
