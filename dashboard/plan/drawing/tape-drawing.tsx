import type { TransectQuadrat } from '../../../hub/contract/quadrat-place.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { countText, metresText } from '../../format.ts'
import { drawnZones, zoneKind } from '../../parts/zones.ts'
import { drawnMarks, isLongMark, numberEveryMetres } from '../../tape-geometry.ts'
import { NorthArrow } from './north-arrow.tsx'
import { QuadratSquare } from './quadrat-square.tsx'
import { ScaleBar } from './scale-bar.tsx'
import { walkArcs } from './walk-arcs.ts'

interface Props {
  transect: SurveyFile['transects'][number]
  quadrats: readonly TransectQuadrat[]
  /** labels in the order of visiting; empty: the way is not drawn */
  walk: readonly string[]
  width: number
  chosen: string | null
}

const SIDE = 22
const ZONES = 16
const TAPE = 26
const LABELS = 20
const ARC = 46
const FOOT = 30
const ARROW = 56

/** A tape from above, to scale: what grows along it, its marks, the quadrats on it or beside it, the way between them. */
export function TapeDrawing(props: Props) {
  const { transect, quadrats, width } = props
  const hasNorth = transect.bearingDegrees !== undefined
  const ppm = (width - 2 * SIDE - (hasNorth ? ARROW : 0)) / transect.lengthMetres
  const x = (metres: number) => SIDE + metres * ppm
  const end = x(transect.lengthMetres)
  const edges = quadrats.flatMap(({ offsetMetres = 0, sideMetres }) => [
    offsetMetres - sideMetres / 2,
    offsetMetres + sideMetres / 2,
  ])
  // right of the tape, looking away from zero, is below it here
  const least = Math.min(0, ...edges)
  const bandY = ZONES + TAPE + LABELS + 4
  const line = bandY - least * ppm
  const band = (Math.max(0, ...edges) - least) * ppm
  const arcs = walkArcs(quadrats, props.walk, x, bandY + band + 6, ARC)
  const footY = bandY + band + (arcs.length > 0 ? ARC + 12 : 8) + 12
  const zones = drawnZones(transect, SIDE, ppm)
  const every = numberEveryMetres(ppm, transect.lengthMetres >= 100 ? 34 : 24)
  const labelEvery = Math.max(1, Math.ceil((30 * quadrats.length) / Math.max(1, end - SIDE)))
  return (
    <svg
      class="plan-drawing tape"
      width={width}
      height={footY + FOOT}
      role="img"
      aria-label={`Tape ${transect.id}, ${metresText(transect.lengthMetres)}, with ${countText(quadrats.length, 'quadrat')}, to scale`}
      data-tape={transect.id}
      data-scale={ppm}
    >
      {zones.map((zone) => (
        <g key={zone.name}>
          <rect
            x={zone.start}
            y={0}
            width={Math.max(0, zone.end - zone.start)}
            height={ZONES}
            fill={`url(#hatch-${zoneKind(zone)})`}
          />
          {zone.end - zone.start > 44 && (
            <text class="zone-name" x={zone.start + 4} y={12}>
              {zone.name}
            </text>
          )}
        </g>
      ))}
      <rect class="tape-body" x={SIDE - 6} y={ZONES} width={end - SIDE + 12} height={TAPE} />
      {drawnMarks(transect.lengthMetres, transect.markSpacingMetres, ppm).map((mark) => {
        const isLong = isLongMark(mark, ppm, every)
        return (
          <path
            key={mark.metres}
            class={isLong ? 'tape-mark metre' : 'tape-mark'}
            d={`M${x(mark.metres)} ${ZONES + TAPE}v${isLong ? -9 : -5}`}
          />
        )
      })}
      {Array.from({ length: Math.floor(transect.lengthMetres / every + 1e-9) + 1 }, (_, index) => (
        <text key={index} class="tape-number" x={x(index * every)} y={ZONES + 14}>
          {index * every}
        </text>
      ))}
      <path class="plan-line" d={`M${SIDE} ${line}H${end}`} />
      {arcs.map((arc) => (
        <path key={arc} class="plan-way" d={arc} />
      ))}
      {quadrats.map((quadrat, index) => (
        <QuadratSquare
          key={quadrat.label}
          label={quadrat.label}
          x={x(quadrat.distanceMetres) - (quadrat.sideMetres * ppm) / 2}
          y={line + ((quadrat.offsetMetres ?? 0) - quadrat.sideMetres / 2) * ppm}
          side={quadrat.sideMetres * ppm}
          sideMetres={quadrat.sideMetres}
          isLifted={quadrat.lifted !== undefined}
          isChosen={props.chosen === quadrat.label}
          hasLabel={
            index % labelEvery === 0 && (quadrat.offsetMetres ?? 0) - quadrat.sideMetres / 2 === least
          }
        />
      ))}
      <ScaleBar x={SIDE} y={footY} pixelsPerMetre={ppm} />
      {transect.bearingDegrees !== undefined && (
        <NorthArrow x={end + ARROW / 2 + 8} y={30} turned={90 - transect.bearingDegrees} />
      )}
    </svg>
  )
}
