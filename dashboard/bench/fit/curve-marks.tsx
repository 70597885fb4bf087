import type { Fitted } from '../../../calibration/index.ts'
import { shownFactor, unitText } from '../../format.ts'
import { signalWithUnit } from '../hold/signal-digits.ts'
import type { PlotPoint } from './plot-points.ts'

/** Where the drawing begins, right of the numbers. */
export const GRID_LEFT = 56

/** One level of the grid with its number. */
export function Level(props: { y: number; width: number; text: string; isZero?: boolean }) {
  return (
    <>
      <path class={props.isZero ? 'curve-zero' : ''} d={`M${GRID_LEFT} ${props.y}H${props.width - 8}`} />
      <text class="curve-y" x={GRID_LEFT - 6} y={props.y + 4}>
        {props.text}
      </text>
    </>
  )
}

/** A point: round when fitted, a diamond when only checked, underlined when kept while it moved. */
export function Dot({ x, y, point }: { x: number; y: number; point: PlotPoint }) {
  return (
    <>
      {point.isCheck ? <path d={`M${x} ${y - 7}l7 7-7 7-7-7Z`} /> : <circle cx={x} cy={y} r="6" />}
      {point.isForced && <path class="curve-forced" d={`M${x - 4} ${y + 11}h8`} />}
    </>
  )
}

/** The picture for those who hear it. */
export function curveInWords(points: readonly PlotPoint[], fitted: Fitted): string {
  const unit = unitText(fitted.unit)
  const factor = shownFactor(fitted.unit)
  const each = points.map(
    ({ signal, reference }) =>
      `${signalWithUnit(signal, fitted.signalUnits[0] ?? '')} at ${Number((reference * factor).toPrecision(4))} ${unit}`,
  )
  return points.length === 0
    ? 'The curve, without points.'
    : `Curve through ${points.length} points: ${each.join('; ')}.`
}
