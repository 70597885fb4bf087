import type { TracePoint } from './carried-moment.ts'
import { placeOnStrip, type View } from './strip-geometry.ts'

export interface TraceDrawn {
  /** SVG path; a pause of more than five times the usual interval breaks it */
  path: string
  low: number | null
  high: number | null
}

const PAD = 6
const PAUSE = 5

/** Values over time in a box, as high as they wandered; one value, or all alike, lie in the middle. */
export function traceDrawn(
  points: readonly TracePoint[],
  view: View,
  width: number,
  height: number,
): TraceDrawn {
  if (points.length === 0) return { path: '', low: null, high: null }
  const values = points.map(({ value }) => value)
  const low = Math.min(...values)
  const high = Math.max(...values)
  const y = (value: number) =>
    high === low ? height / 2 : PAD + ((high - value) / (high - low)) * (height - 2 * PAD)
  const pauses = points.slice(1).map(({ timeMs }, index) => timeMs - points[index]!.timeMs)
  const usualMs = pauses.toSorted((one, other) => one - other)[Math.floor(pauses.length / 2)] ?? 0
  const path = points.map(({ timeMs, value }, index) => {
    const isBroken = index === 0 || pauses[index - 1]! > PAUSE * usualMs
    return `${isBroken ? 'M' : 'L'}${placeOnStrip(timeMs, view, width).toFixed(1)} ${y(value).toFixed(1)}`
  })
  return { path: path.join(''), low, high }
}
