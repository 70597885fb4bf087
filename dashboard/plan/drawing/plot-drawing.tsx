import type { PlotQuadrat } from '../../../hub/contract/quadrat-place.ts'
import type { Plot } from '../../../hub/contract/survey.ts'
import { countText, metresText } from '../../format.ts'
import { numberEveryMetres } from '../../tape-geometry.ts'
import { NorthArrow } from './north-arrow.tsx'
import { QuadratSquare } from './quadrat-square.tsx'
import { ScaleBar } from './scale-bar.tsx'

interface Props {
  plot: Plot
  quadrats: readonly PlotQuadrat[]
  rejected: readonly { xMetres: number; yMetres: number; reason: string }[]
  /** labels in the order of visiting; empty: the way is not drawn */
  walk: readonly string[]
  width: number
  chosen: string | null
}

const LEFT = 34
const TOP = 18
const BOTTOM = 54
const TALLEST = 460
const ARROW = 56
/** So many dots would be a haze, and slow to draw: a longer way is a thin line. */
const LONG_WAY = 150

/** A plot from above, to scale, with two tapes at right angles along its edges. */
export function PlotDrawing(props: Props) {
  const { plot, quadrats, width } = props
  const hasNorth = plot.bearingDegrees !== undefined
  const room = width - LEFT - 8 - (hasNorth ? ARROW : 0)
  const ppm = Math.min(room / plot.widthMetres, TALLEST / plot.heightMetres)
  const wide = plot.widthMetres * ppm
  const high = plot.heightMetres * ppm
  const x = (metres: number) => LEFT + metres * ppm
  const y = (metres: number) => TOP + high - metres * ppm
  const every = numberEveryMetres(ppm, 26)
  const ticks = (length: number) =>
    Array.from({ length: Math.floor(length / every + 1e-9) + 1 }, (_, index) => index * every)
  const places = new Map(quadrats.map((quadrat) => [quadrat.label, quadrat]))
  const way = props.walk.flatMap((label) => {
    const quadrat = places.get(label)
    if (!quadrat) return []
    const half = quadrat.sideMetres / 2
    return [`${x(quadrat.xMetres + half).toFixed(1)} ${y(quadrat.yMetres + half).toFixed(1)}`]
  })
  return (
    <svg
      class="plan-drawing"
      width={width}
      height={TOP + high + BOTTOM}
      role="img"
      aria-label={`Plot ${plot.id}, ${metresText(plot.widthMetres)} by ${metresText(plot.heightMetres)}, with ${countText(quadrats.length, 'quadrat')}, to scale`}
      data-plot={plot.id}
      data-scale={ppm}
    >
      <rect class="plan-ground" x={LEFT} y={TOP} width={wide} height={high} />
      <g class="plan-ticks">
        {ticks(plot.widthMetres).map((metres) => (
          <g key={`x${metres}`}>
            <path d={`M${x(metres)} ${TOP + high}v6`} />
            <text x={x(metres)} y={TOP + high + 19}>
              {metres}
            </text>
          </g>
        ))}
        {ticks(plot.heightMetres).map((metres) => (
          <g key={`y${metres}`}>
            <path d={`M${LEFT} ${y(metres)}h-6`} />
            <text class="at-end" x={LEFT - 9} y={y(metres) + 4}>
              {metres}
            </text>
          </g>
        ))}
      </g>
      {way.length > 1 && (
        <path class={way.length > LONG_WAY ? 'plan-way is-long' : 'plan-way'} d={`M${way.join('L')}`} />
      )}
      {props.rejected.map(({ xMetres, yMetres, reason }) => (
        <g class="plan-rejected" key={`${xMetres} ${yMetres}`} data-rejected-place>
          <title>{reason}</title>
          <path d={`M${x(xMetres)} ${y(yMetres)}l9 -9m-9 0l9 9`} />
        </g>
      ))}
      {quadrats.map((quadrat, index) => (
        <QuadratSquare
          key={quadrat.label}
          label={quadrat.label}
          x={x(quadrat.xMetres)}
          y={y(quadrat.yMetres + quadrat.sideMetres)}
          side={quadrat.sideMetres * ppm}
          sideMetres={quadrat.sideMetres}
          isLifted={quadrat.lifted !== undefined}
          isChosen={props.chosen === quadrat.label}
          hasLabel={quadrats.length <= 60 || index % Math.ceil(quadrats.length / 40) === 0}
        />
      ))}
      <ScaleBar x={LEFT} y={TOP + high + 40} pixelsPerMetre={ppm} />
      {plot.bearingDegrees !== undefined && (
        <NorthArrow x={LEFT + wide + ARROW / 2 + 4} y={TOP + 26} turned={-plot.bearingDegrees} />
      )}
    </svg>
  )
}
