import type { Fitted } from '../../../calibration/index.ts'
import { numberText, shownFactor, unitText } from '../../format.ts'
import { useWidth } from '../../parts/use-width.ts'
import { curveInWords, Dot, GRID_LEFT, Level } from './curve-marks.tsx'
import {
  bandPath,
  type CurveSample,
  pathThrough,
  residualReach,
  roundSteps,
  type Scale,
  sampleCurve,
  scaleOver,
  signalStretch,
} from './plot-geometry.ts'
import { type PlotPoint, residualOf } from './plot-points.ts'

const HEIGHT = 390
const MAIN = { top: 12, bottom: 236 }
const STRIP = { top: 268, bottom: 348 }

/** Points and curve above; how far each point lies off it below, on a scale where that can be seen. */
export function CurvePlot(props: {
  fitted: Fitted
  points: readonly PlotPoint[]
  signalUnit: string
  live?: number | null
  /** drawn to fill this width; without it the width it finds */
  width?: number
}) {
  const [frame, found] = useWidth<HTMLElement>()
  const { fitted, points, signalUnit, live = null } = props
  const width = props.width ?? found
  return (
    <figure class="curve" ref={frame}>
      {width > 0 && <Drawing {...{ fitted, points, signalUnit, live, width }} />}
      <figcaption>
        <span class="key-band" aria-hidden="true" /> the truth lies in the grey band 95 times in 100
        <span class="key-stem" aria-hidden="true" /> distance of a point from the curve
        {points.some(({ isCheck }) => isCheck) && (
          <>
            <span class="key-check" aria-hidden="true" /> check, not in the fit
          </>
        )}
      </figcaption>
    </figure>
  )
}

function Drawing(props: {
  fitted: Fitted
  points: readonly PlotPoint[]
  signalUnit: string
  live: number | null
  width: number
}) {
  const { fitted, points, signalUnit, live, width } = props
  const factor = shownFactor(fitted.unit)
  const stretch = signalStretch(fitted, points, live)
  const samples = sampleCurve(fitted, stretch)
  const x: Scale = scaleOver(stretch, GRID_LEFT, width - 8, 0)
  const values = [...samples.map(({ value }) => value), ...points.map(({ reference }) => reference)]
  const y = scaleOver(
    values.map((value) => value * factor),
    MAIN.bottom,
    MAIN.top,
  )
  const reach = residualReach(fitted, samples, points) * factor
  const strip = scaleOver([-reach, reach], STRIP.bottom, STRIP.top, 0)
  const [xSteps, ySteps, stripSteps] = [
    roundSteps(x, width < 420 ? 4 : 6),
    roundSteps(y),
    roundSteps(strip, 3),
  ]
  const unit = unitText(fitted.unit)
  const liveValue = live === null ? null : fitted.valueAt(live)
  return (
    <svg
      width={width}
      height={HEIGHT}
      viewBox={`0 0 ${width} ${HEIGHT}`}
      role="img"
      aria-label={curveInWords(points, fitted)}
    >
      <clipPath id="curve-main">
        <rect x={GRID_LEFT} y={MAIN.top} width={width - GRID_LEFT - 8} height={MAIN.bottom - MAIN.top} />
      </clipPath>
      <clipPath id="curve-strip">
        <rect x={GRID_LEFT} y={STRIP.top} width={width - GRID_LEFT - 8} height={STRIP.bottom - STRIP.top} />
      </clipPath>
      <g class="curve-grid">
        {ySteps.at.map((value) => (
          <Level key={value} y={y.at(value)} width={width} text={numberText(value, ySteps.decimals)} />
        ))}
        {stripSteps.at.map((value) => (
          <Level
            key={value}
            y={strip.at(value)}
            width={width}
            text={
              value > 0
                ? `+${numberText(value, stripSteps.decimals)}`
                : numberText(value, stripSteps.decimals)
            }
            isZero={Math.abs(value) < 1e-9}
          />
        ))}
        {xSteps.at.map((value) => (
          <g key={value}>
            <path
              d={`M${x.at(value)} ${MAIN.top}V${MAIN.bottom}M${x.at(value)} ${STRIP.top}V${STRIP.bottom}`}
            />
            <text class="curve-x" x={x.at(value)} y={STRIP.bottom + 17}>
              {numberText(value, xSteps.decimals)}
            </text>
          </g>
        ))}
      </g>
      <text class="curve-unit" x={GRID_LEFT + 6} y={MAIN.top + 13}>
        {unit}
      </text>
      <text class="curve-unit" x={GRID_LEFT + 6} y={STRIP.top - 6}>
        off the curve, {unit === 'pH' ? 'pH' : unit}
      </text>
      <text class="curve-unit at-end" x={width - 8} y={HEIGHT - 8}>
        signal{signalUnit === '' ? '' : `, ${unitText(signalUnit)}`}
      </text>
      <g clip-path="url(#curve-main)">
        <path class="curve-band" d={bandPath(samples, x, y, ({ value }) => value, factor)} />
        <path
          class="curve-line"
          d={pathThrough(samples.map((s) => [x.at(s.signal), y.at(s.value * factor)]))}
        />
        {liveValue && 'value' in liveValue && live !== null && (
          <path
            class="curve-live"
            d={`M${x.at(live)} ${MAIN.bottom}V${y.at(liveValue.value * factor)}H${GRID_LEFT}`}
          />
        )}
      </g>
      <g clip-path="url(#curve-strip)">
        <path class="curve-band" d={bandPath(samples, x, strip, zero, factor)} />
      </g>
      {points.map((point, index) => {
        const off = residualOf(fitted, point)
        const at = x.at(point.signal)
        return (
          <g key={index} class={point.isCheck ? 'curve-point is-check' : 'curve-point'}>
            <Dot x={at} y={y.at(point.reference * factor)} point={point} />
            {off !== null && (
              <>
                <path class="curve-stem" d={`M${at} ${strip.at(0)}V${strip.at(off * factor)}`} />
                <Dot x={at} y={strip.at(off * factor)} point={point} />
              </>
            )}
          </g>
        )
      })}
    </svg>
  )
}

const zero = (_: CurveSample) => 0
