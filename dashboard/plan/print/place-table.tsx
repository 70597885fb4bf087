import type { Quadrat, SurveyFile } from '../../../hub/contract/survey.ts'
import { metresText } from '../../format.ts'
import { SheetHead } from './sheet-head.tsx'

/** Where each quadrat lies, in the order in which it is visited, with a box to tick. */
export function PlaceTable(props: { survey: SurveyFile; quadrats: readonly Quadrat[]; group: string }) {
  const { survey, quadrats, group } = props
  return (
    <section class="paper-sheet" data-places={quadrats.map(({ label }) => label).join(' ')}>
      <SheetHead survey={survey} group={group} title="Where the quadrats lie" />
      <div class="sheet-scroll">
        <table class="paper-table place-table">
          <thead>
            <tr>
              <th scope="col">turn</th>
              <th scope="col">quadrat</th>
              <th scope="col">on</th>
              <th scope="col">distance or x</th>
              <th scope="col">right of tape or y</th>
              <th scope="col">side</th>
              <th scope="col">time</th>
              <th scope="col">done</th>
            </tr>
          </thead>
          <tbody>
            {quadrats.map((quadrat, index) => (
              <tr key={quadrat.label}>
                <td>{index + 1}</td>
                <th scope="row">
                  <u>{quadrat.label}</u>
                </th>
                <td>{quadrat.transect ?? quadrat.plot}</td>
                <td>{metresText(quadrat.distanceMetres ?? quadrat.xMetres ?? 0)}</td>
                <td>{metresText(quadrat.offsetMetres ?? quadrat.yMetres ?? 0)}</td>
                <td>{metresText(quadrat.sideMetres)}</td>
                <td class="to-write" />
                <td class="to-tick">☐</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p class="paper-note">
        In a plot x and y are those of the corner nearest the zero marks. Put the frame where the numbers say,
        not where it looks good. Tread on one side only.
      </p>
    </section>
  )
}
