import type { TransectQuadrat } from '../../hub/contract/quadrat-place.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { metresText } from '../format.ts'
import { drawnMarks, isLongMark, numberEveryMetres } from '../tape-geometry.ts'
import { Vegetation } from './vegetation.tsx'
import { whenChanged } from './when-changed.tsx'
import { drawnZones, zoneKind } from './zones.ts'

type Transect = SurveyFile['transects'][number]

interface Props {
  transect: Transect
  quadrats: readonly TransectQuadrat[]
  width: number
  fromX: number
  toX: number
  /** where each quadrat's column is below, px; without it no leaders are drawn */
  columns?: readonly number[]
  chosen?: string
  isCompact?: boolean
}

const TAPE = 30
const HATCH = 15
/** px; a square larger than this is drawn no larger */
const LARGEST_SQUARE = 130

/** The transect to scale, lying across the page: what grows there, the ruled tape, the quadrats beside it. */
export const TapeWide = whenChanged(function TapeWide(props: Props) {
  const { transect, quadrats, width, fromX, toX, columns, chosen, isCompact = false } = props
  const ppm = (toX - fromX) / transect.lengthMetres
  const zones = drawnZones(transect, fromX, ppm)
  const groundY = isCompact ? 4 : 96
  const tapeY = groundY + HATCH
  const tapeEnd = tapeY + TAPE
  const largest = Math.max(0.2, ...quadrats.map((quadrat) => quadrat.sideMetres)) * ppm
  const height = tapeEnd + Math.min(LARGEST_SQUARE, largest) + (columns ? 44 : 22)
  const every = numberEveryMetres(ppm, transect.lengthMetres >= 100 ? 34 : 24)
  const x = (metres: number) => fromX + metres * ppm
  return (
    <svg
      class="tape"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={tapeSentence(transect, quadrats)}
    >
      {zones.map((zone) => (
        <g key={zone.name}>
          <rect
            class="zone"
            x={zone.start}
            y={groundY}
            width={Math.max(0, zone.end - zone.start)}
            height={HATCH}
            fill={`url(#hatch-${zoneKind(zone)})`}
          />
          {!isCompact && zone.end - zone.start > 44 && (
            <text class="zone-name" x={zone.start + 4} y={12}>
              {zone.name}
              {zone.end - zone.start > 124 &&
                ` ${Number(zone.fromMetres.toFixed(2))}–${metresText(zone.toMetres)}`}
            </text>
          )}
          {zone.index > 0 && <path class="zone-limit" d={`M${zone.start} 2V${tapeY}`} />}
        </g>
      ))}
      {!isCompact && <Vegetation zones={zones} y={groundY} fromX={fromX} toX={toX} />}
      <rect class="tape-body" x={fromX - 9} y={tapeY} width={toX - fromX + 18} height={TAPE} rx="2" />
      {drawnMarks(transect.lengthMetres, transect.markSpacingMetres, ppm).map((mark) => (
        <path
          key={mark.metres}
          class={isLongMark(mark, ppm, every) ? 'tape-mark metre' : 'tape-mark'}
          d={`M${x(mark.metres)} ${tapeY}v${isLongMark(mark, ppm, every) ? 11 : 6}`}
        />
      ))}
      {Array.from({ length: Math.floor(transect.lengthMetres / every) + 1 }, (_, index) => (
        <text key={`n${index * every}`} class="tape-number" x={x(index * every)} y={tapeEnd - 5}>
          {index * every}
        </text>
      ))}
      {quadrats.map((quadrat, index) => (
        <QuadratSquare
          key={quadrat.label}
          quadrat={quadrat}
          x={x(quadrat.distanceMetres)}
          y={tapeEnd}
          side={quadrat.sideMetres * ppm}
          isChosen={quadrat.label === chosen}
          leaderTo={columns?.[index] === undefined ? null : { x: columns[index], y: height }}
          hasLabel={columns === undefined}
        />
      ))}
    </svg>
  )
})

function QuadratSquare(props: {
  quadrat: TransectQuadrat
  x: number
  y: number
  side: number
  isChosen: boolean
  leaderTo: { x: number; y: number } | null
  hasLabel: boolean
}) {
  const { quadrat, x, y, isChosen, leaderTo } = props
  const side = Math.max(5, Math.min(LARGEST_SQUARE, props.side))
  const left = x - side / 2
  const lines = side >= 22 ? Math.min(10, quadrat.gridDivisions) : 0
  let grid = ''
  for (let line = 1; line < lines; line++) {
    const at = (line * side) / lines
    grid += `M${left + at} ${y}v${side}M${left} ${y + at}h${side}`
  }
  return (
    <g class={isChosen ? 'quadrat chosen' : 'quadrat'}>
      {leaderTo && (
        <path
          class="leader"
          d={`M${x} ${y + side}C${x} ${y + side + 20} ${leaderTo.x} ${leaderTo.y - 22} ${leaderTo.x} ${leaderTo.y}`}
        />
      )}
      <rect class="quadrat-side" x={left} y={y} width={side} height={side} />
      {lines > 0 && <path class="quadrat-grid" d={grid} />}
      {props.hasLabel && (
        <text class="quadrat-label" x={x} y={y + side + 15}>
          {quadrat.label}
        </text>
      )}
    </g>
  )
}

export function tapeSentence(transect: Transect, quadrats: readonly TransectQuadrat[]): string {
  const zones = transect.zones.map((zone) => `${zone.name} from ${zone.fromMetres} to ${zone.toMetres} m`)
  const places = quadrats.map((quadrat) => `${quadrat.label} at ${quadrat.distanceMetres} m`)
  return `Tape of ${transect.lengthMetres} m${zones.length > 0 ? `: ${zones.join(', ')}` : ''}. ${places.join(', ')}.`
}
