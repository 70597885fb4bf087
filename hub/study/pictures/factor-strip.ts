import { roomForTicks, uprightAxis } from './axes.ts'
import { scaleFor } from './linear-scale.ts'
import { BLUE, INK, mark, TEXT_PX } from './look.ts'
import { line, tag, through, words } from './svg-text.ts'
import { fitText } from './text-width.ts'

/** A factor at one station; null where it was not measured. */
export interface StripPoint {
  x: number
  value: number | null
  /** half the width of the 95 % interval; null: not known */
  expanded: number | null
  /** of the single quadrats, where there are several at the station */
  singles: readonly number[]
}

export interface StripFrame {
  left: number
  right: number
  top: number
  heightPx: number
}

const NAME_PX = 18

/** The values a strip has to hold, intervals included. */
function extremes(points: readonly StripPoint[]): number[] {
  return points.flatMap(({ value, expanded, singles }) =>
    value === null ? [] : [value - (expanded ?? 0), value + (expanded ?? 0), ...singles],
  )
}

function scaleOfStrip(points: readonly StripPoint[], { top, heightPx }: StripFrame) {
  return scaleFor(extremes(points), top + heightPx, top + NAME_PX, 5)
}

/** How much room its numbers need on the left, px. */
export function stripMargin(points: readonly StripPoint[]): number {
  return roomForTicks(scaleOfStrip(points, { left: 0, right: 0, top: 0, heightPx: 100 }))
}

/**
 * One factor along the tape, on an axis of its own: points with their 95 % intervals, joined between neighbours; a station
 * without a value breaks the line.
 */
export function drawStrip(name: string, points: readonly StripPoint[], frame: StripFrame): string {
  const scale = scaleOfStrip(points, frame)
  const runs: { x: number; y: number }[][] = [[]]
  for (const { x, value } of points)
    if (value === null) runs.push([])
    else runs.at(-1)!.push({ x, y: scale.at(value) })
  const joined = runs
    .filter((run) => run.length > 1)
    .map((run) => tag('path', { d: through(run), fill: 'none', stroke: BLUE, 'stroke-width': 1.4 }))
  const marks = points.flatMap(({ x, value, expanded, singles }) => {
    if (value === null) return []
    const bar =
      expanded === null || expanded === 0
        ? ''
        : intervalBar(x, scale.at(value - expanded), scale.at(value + expanded))
    return [
      bar +
        singles.map((each) => mark('ring', x, scale.at(each), 2.4)).join('') +
        mark('disc', x, scale.at(value), 3.4),
    ]
  })
  return [
    words(frame.left + 4, frame.top + 12, fitText(name, frame.right - frame.left - 8, TEXT_PX), {
      'font-weight': 'bold',
    }),
    uprightAxis(scale, frame.left, frame.right),
    ...joined,
    ...marks,
  ].join('')
}

/** An interval with its ends, upright at x. */
export function intervalBar(x: number, y1: number, y2: number): string {
  return [y1, y2]
    .map((y) => line(x - 3, y, x + 3, y, { stroke: INK }))
    .join('')
    .concat(line(x, y1, x, y2, { stroke: INK }))
}
