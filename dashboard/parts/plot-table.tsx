import { isInPlot } from '../../hub/contract/quadrat-place.ts'
import type { ChannelNow } from '../../hub/contract/reading.ts'
import type { Plot, SurveyFile } from '../../hub/contract/survey.ts'
import { metresText, placeText } from '../format.ts'
import { rowsFor } from '../quantities.ts'
import { pathTo } from '../router.ts'
import { newestOf } from '../standing.ts'
import { ValueCell } from './value-cell.tsx'
import './plot-table.css'

/** A plot with its quadrats, and what the probes at each read now. */
export function PlotTable(props: {
  survey: SurveyFile
  plot: Plot
  channels: readonly ChannelNow[]
  nowMs: number
}) {
  const { survey, plot, channels, nowMs } = props
  const quadrats = survey.quadrats.filter(isInPlot).filter((quadrat) => quadrat.plot === plot.id)
  const labels = new Set(quadrats.map(({ label }) => label))
  const here = channels.filter(
    ({ survey: of, quadrat }) => of === survey.id && quadrat !== null && labels.has(quadrat),
  )
  const measured = new Set(here.map(({ quantity }) => quantity))
  const rows = rowsFor(here.flatMap(({ quantity }) => quantity ?? [])).filter(({ name }) =>
    measured.has(name),
  )
  const intervals = new Map(survey.boards.map((board) => [board.name, board.sampleIntervalSeconds]))
  return (
    <section class="transect">
      <h2>
        {plot.name ?? plot.id}: {metresText(plot.widthMetres)} by {metresText(plot.heightMetres)}
      </h2>
      <div class="plot-table">
        <table>
          <thead>
            <tr>
              <th scope="col">Quadrat</th>
              {rows.map(({ name, label }) => (
                <th scope="col" key={name}>
                  {label}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {quadrats.map((quadrat) => (
              <tr key={quadrat.label}>
                <th scope="row">
                  <a href={pathTo.quadrat(survey.id, quadrat.label)}>{quadrat.label}</a>
                  <small>{placeText(quadrat)}</small>
                </th>
                {rows.map((row) => {
                  const channel = newestOf(
                    here.filter((each) => each.quadrat === quadrat.label && each.quantity === row.name),
                  )
                  return (
                    <td key={row.name}>
                      <dl>
                        <ValueCell
                          quantity={row}
                          channel={channel}
                          nowMs={nowMs}
                          intervalSeconds={channel && intervals.get(channel.board)}
                          hasLabel={false}
                        />
                      </dl>
                    </td>
                  )
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {rows.length === 0 && (
        <p class="faint">
          No probe stands here. What a carried meter has read is on each quadrat’s own page.
        </p>
      )}
    </section>
  )
}
