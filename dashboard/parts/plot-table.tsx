import { isInPlot, type PlotQuadrat } from '../../hub/contract/quadrat-place.ts'
import type { ChannelNow } from '../../hub/contract/reading.ts'
import type { Plot, SurveyFile } from '../../hub/contract/survey.ts'
import { metresText, placeText } from '../format.ts'
import { type QuantityWords, rowsFor } from '../quantities.ts'
import { pathTo } from '../router.ts'
import { lateAgeOf, newestOf } from '../standing.ts'
import { ValueCell } from './value-cell.tsx'
import { whenChanged } from './when-changed.tsx'
import './plot-table.css'

/** Rows under one heading. A browser lays out a table as a whole, so that one of a thousand rows is slow to change. */
const LEAF = 40

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
  const byQuadrat = new Map<string | null, ChannelNow[]>()
  for (const channel of here)
    byQuadrat.set(channel.quadrat, [...(byQuadrat.get(channel.quadrat) ?? []), channel])
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
      {inLeaves(quadrats).map((leaf) => (
        <div class={quadrats.length > LEAF ? 'plot-table plot-leaf' : 'plot-table'} key={leaf[0]?.label}>
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
              {leaf.map((quadrat) => {
                const probes = byQuadrat.get(quadrat.label) ?? []
                const newest = rows.map(({ name }) =>
                  newestOf(probes.filter(({ quantity }) => quantity === name)),
                )
                const lateAges = newest.map((channel) =>
                  lateAgeOf(channel, nowMs, channel && intervals.get(channel.board)),
                )
                return (
                  <PlotRow key={quadrat.label} {...{ quadrat, rows, newest, lateAges }} survey={survey.id} />
                )
              })}
            </tbody>
          </table>
        </div>
      ))}
      {rows.length === 0 && (
        <p class="faint">
          No probe stands here. What a carried meter has read is on each quadrat’s own page.
        </p>
      )}
    </section>
  )
}

function inLeaves(quadrats: readonly PlotQuadrat[]): PlotQuadrat[][] {
  return Array.from({ length: Math.ceil(quadrats.length / LEAF) }, (_, leaf) =>
    quadrats.slice(leaf * LEAF, (leaf + 1) * LEAF),
  )
}

/** Most of a large plot stands still while a few probes talk. */
const PlotRow = whenChanged(function PlotRow(props: {
  survey: string
  quadrat: PlotQuadrat
  rows: readonly QuantityWords[]
  /** one per row of `rows` */
  newest: readonly (ChannelNow | undefined)[]
  lateAges: readonly (string | null)[]
}) {
  const { survey, quadrat, rows, newest, lateAges } = props
  return (
    <tr>
      <th scope="row">
        <a href={pathTo.quadrat(survey, quadrat.label)}>{quadrat.label}</a>
        <small>{placeText(quadrat)}</small>
      </th>
      {rows.map((row, index) => (
        <td key={row.name}>
          <dl>
            <ValueCell
              quantity={row}
              channel={newest[index]}
              lateAge={lateAges[index] ?? null}
              hasLabel={false}
            />
          </dl>
        </td>
      ))}
    </tr>
  )
})
