import { placeLabels } from './label-places.ts'
import type { LinearScale } from './linear-scale.ts'
import { INK, type MarkShape, mark, SMALL_PX } from './look.ts'
import { line, words } from './svg-text.ts'

export interface ScatterPoint {
  label: string
  x: number
  y: number
  /** half the width of the 95 % interval of x; null: not known */
  expanded: number | null
  shape: MarkShape
}

/** Points of one factor beside one species, in scales that hold them. */
export function scatterPoints(
  points: readonly ScatterPoint[],
  x: LinearScale,
  y: LinearScale,
  radius: number,
): string {
  return points
    .map((point) => {
      const [cx, cy] = [x.at(point.x), y.at(point.y)]
      const { expanded } = point
      const bar =
        expanded === null || expanded === 0
          ? ''
          : levelBar(x.at(point.x - expanded), x.at(point.x + expanded), cy)
      return bar + mark(point.shape, cx, cy, radius)
    })
    .join('')
}

/** Their labels, each beside its point. @param frame  no label leaves it, px */
export function scatterLabels(
  points: readonly ScatterPoint[],
  x: LinearScale,
  y: LinearScale,
  frame: { left: number; right: number; top: number; bottom: number },
): string {
  const placed = points.map((point) => ({ x: x.at(point.x), y: y.at(point.y), text: point.label }))
  const bars = points.flatMap((point) => alongBar(point, x, y))
  const places = placeLabels(placed, frame, bars)
  return places
    .map(({ x: left, y: base, anchor }, index) =>
      words(left, base, placed[index]!.text, { 'text-anchor': anchor, 'font-size': SMALL_PX }),
    )
    .join('')
}

/** Places on the interval of a point that labels should leave free. */
function alongBar(
  { x: middle, y: height, expanded }: ScatterPoint,
  x: LinearScale,
  y: LinearScale,
): { x: number; y: number }[] {
  if (expanded === null) return []
  const [from, to] = [x.at(middle - expanded), x.at(middle + expanded)]
  const steps = Math.max(1, Math.round((to - from) / 8))
  return Array.from({ length: steps + 1 }, (_, index) => ({
    x: from + ((to - from) * index) / steps,
    y: y.at(height),
  }))
}

function levelBar(x1: number, x2: number, y: number): string {
  return [x1, x2]
    .map((x) => line(x, y - 3, x, y + 3, { stroke: INK }))
    .join('')
    .concat(line(x1, y, x2, y, { stroke: INK }))
}

/** Values of an axis that has to hold points and intervals. */
export function scatterSpan(points: readonly ScatterPoint[]): { x: number[]; y: number[] } {
  return {
    x: points.flatMap(({ x, expanded }) => [x - (expanded ?? 0), x + (expanded ?? 0)]),
    y: [0, ...points.map(({ y }) => y)],
  }
}
