import type { StudyPair } from '../../../hub/contract/study.ts'
import { shownFactor, unitText } from '../../format.ts'
import { joinedCellText } from '../join/cell-text.ts'
import { ScrollBox } from '../scroll-box.tsx'
import { measureWords } from '../species/measure-words.ts'

/** The numbers behind a scatter plot. */
export function PointsTable({ pair }: { pair: StudyPair }) {
  const { factor, factorUnit, species, measure, points } = pair
  const factorOf = shownFactor(factorUnit)
  return (
    <details class="study-fold">
      <summary>The numbers of the plot</summary>
      <ScrollBox name="The numbers of the plot">
        <table class="study-table">
          <thead>
            <tr>
              <th scope="col">Quadrat</th>
              <th scope="col">
                {factor}
                <small>{unitText(factorUnit)}, ± 95 %</small>
              </th>
              <th scope="col">
                {species}
                <small>{measureWords[measure].label}</small>
              </th>
            </tr>
          </thead>
          <tbody>
            {points.map(({ quadrat, x, y, expanded }) => (
              <tr key={quadrat}>
                <th scope="row">{quadrat}</th>
                <td>
                  {joinedCellText(x * factorOf)}
                  {expanded !== null && ` ± ${Number((expanded * factorOf).toPrecision(2))}`}
                </td>
                <td>{joinedCellText(y)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </ScrollBox>
    </details>
  )
}
