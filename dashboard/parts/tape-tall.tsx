import type { TransectQuadrat } from '../../hub/contract/quadrat-place.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { drawnMarks, isLongMark, numberEveryMetres } from '../tape-geometry.ts'
import { tapeSentence } from './tape-wide.tsx'
import { whenChanged } from './when-changed.tsx'
import { drawnZones, zoneKind } from './zones.ts'

type Transect = SurveyFile['transects'][number]

const HATCH = 13
const TAPE = 36

/** The transect to scale, running down the page as in a surveyor's book: read it with the tape in the other hand. */
export const TapeTall = whenChanged(function TapeTall(props: {
  transect: Transect
  quadrats: readonly TransectQuadrat[]
  width: number
  height: number
  fromY: number
  toY: number
  /** where each quadrat's entry is beside the tape, px */
  entries: readonly number[]
}) {
  const { transect, quadrats, width, height, fromY, toY, entries } = props
  const ppm = (toY - fromY) / transect.lengthMetres
  const every = numberEveryMetres(ppm, 22)
  const y = (metres: number) => fromY + metres * ppm
  const tapeEnd = HATCH + TAPE
  return (
    <svg
      class="tape"
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={tapeSentence(transect, quadrats)}
    >
      {drawnZones(transect, fromY, ppm).map((zone) => (
        <g key={zone.name}>
          <rect
            class="zone"
            x={0}
            y={zone.start}
            width={HATCH}
            height={Math.max(0, zone.end - zone.start)}
            fill={`url(#hatch-${zoneKind(zone)})`}
          />
          {zone.index > 0 && <path class="zone-limit" d={`M0 ${zone.start}H${HATCH}`} />}
        </g>
      ))}
      <rect class="tape-body" x={HATCH} y={fromY - 9} width={TAPE} height={toY - fromY + 18} rx="2" />
      {drawnMarks(transect.lengthMetres, transect.markSpacingMetres, ppm).map((mark) => (
        <path
          key={mark.metres}
          class={isLongMark(mark, ppm, every) ? 'tape-mark metre' : 'tape-mark'}
          d={`M${tapeEnd} ${y(mark.metres)}h${isLongMark(mark, ppm, every) ? -11 : -6}`}
        />
      ))}
      {Array.from({ length: Math.floor(transect.lengthMetres / every) + 1 }, (_, index) => (
        <text key={`n${index * every}`} class="tape-number" x={HATCH + 12} y={y(index * every) + 5}>
          {index * every}
        </text>
      ))}
      {quadrats.map((quadrat, index) => {
        const centre = y(quadrat.distanceMetres)
        const side = Math.max(6, Math.min(18, quadrat.sideMetres * ppm))
        const entry = entries[index] ?? centre
        return (
          <g class="quadrat" key={quadrat.label}>
            <path
              class="leader"
              d={`M${tapeEnd + side} ${centre}C${tapeEnd + side + 10} ${centre} ${width - 12} ${entry} ${width} ${entry}`}
            />
            <rect class="quadrat-side" x={tapeEnd} y={centre - side / 2} width={side} height={side} />
          </g>
        )
      })}
    </svg>
  )
})
