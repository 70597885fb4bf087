import { kiteOutline, kiteRuns } from './kite.ts'
import { GREEN, INK, PENCIL, SMALL_PX, TEXT_PX } from './look.ts'
import { line, tag, through, words } from './svg-text.ts'
import { fitText } from './text-width.ts'

export interface KiteStation {
  x: number
  /** null: not recorded */
  value: number | null
}

export interface KiteFrame {
  left: number
  right: number
  top: number
  /** of the widest kite there can be */
  fullWidthPx: number
}

export const KITE_NAME_PX = 17

/**
 * One species along the tape as a kite, with its name above, and at the left the bar that is full width.
 * A station of its own between two breaks is a bar; where it was not recorded the line is broken as well.
 */
export function drawKite(
  species: string,
  stations: readonly KiteStation[],
  full: { value: number; text: string },
  fill: string,
  { left, right, top, fullWidthPx }: KiteFrame,
): string {
  const middle = top + KITE_NAME_PX + fullWidthPx / 2
  const runs = kiteRuns(
    stations.map(({ x, value }) => ({ at: x, value })),
    full.value,
    fullWidthPx,
  )
  const shapes = runs.map((run) => {
    const first = run[0]!
    if (run.length === 1)
      return line(first.at, middle - Math.max(first.half, 2), first.at, middle + Math.max(first.half, 2), {
        stroke: first.half === 0 ? INK : GREEN,
        'stroke-width': first.half === 0 ? 1 : 5,
      })
    return (
      line(first.at, middle, run.at(-1)!.at, middle, { stroke: INK, 'stroke-width': 0.8 }) +
      tag('path', {
        d: through(kiteOutline(run, middle), true),
        fill,
        stroke: GREEN,
        'stroke-width': 1.2,
        'stroke-linejoin': 'round',
      })
    )
  })
  const missing = stations
    .filter(({ value }) => value === null)
    .map(({ x }) =>
      words(x, middle + 4, '?', { 'text-anchor': 'middle', 'font-size': SMALL_PX, fill: PENCIL }),
    )
  return [
    words(left + 4, top + 12, fitText(species, right - left - 8, TEXT_PX), { 'font-style': 'italic' }),
    fullWidthBar(left - 8, middle, fullWidthPx, full.text),
    ...shapes,
    ...missing,
  ].join('')
}

function fullWidthBar(x: number, middle: number, fullWidthPx: number, text: string): string {
  const [high, low] = [middle - fullWidthPx / 2, middle + fullWidthPx / 2]
  return (
    line(x, high, x, low, { stroke: PENCIL }) +
    line(x - 3, high, x + 3, high, { stroke: PENCIL }) +
    line(x - 3, low, x + 3, low, { stroke: PENCIL }) +
    words(x - 6, middle + 4, text, { 'text-anchor': 'end', 'font-size': SMALL_PX, fill: PENCIL })
  )
}
