import type { LinearScale } from './linear-scale.ts'
import { HAIR, INK, SMALL_PX } from './look.ts'
import { line, words } from './svg-text.ts'
import { textWidth } from './text-width.ts'
import { tickTexts } from './ticks.ts'

const TICK_PX = 5

/** An upright axis at `x` with its ticks to the left, and hair lines to `gridToX` when that is given. */
export function uprightAxis(scale: LinearScale, x: number, gridToX?: number): string {
  const texts = tickTexts(scale.ticks)
  const ends = line(x, scale.at(scale.low), x, scale.at(scale.high), { stroke: INK })
  const ticks = scale.ticks.map((tick, index) => {
    const y = scale.at(tick)
    const grid = gridToX === undefined ? '' : line(x, y, gridToX, y, { stroke: HAIR, 'stroke-width': 0.6 })
    return (
      grid +
      line(x - TICK_PX, y, x, y, { stroke: INK }) +
      words(x - TICK_PX - 2, y + 4, texts[index]!, { 'text-anchor': 'end', 'font-size': SMALL_PX })
    )
  })
  return ticks.join('') + ends
}

/** A level axis at `y` with its ticks below; numbers that would run into each other are thinned out. */
export function levelAxis(scale: LinearScale, y: number, label: string, rightEdge: number): string {
  const texts = tickTexts(scale.ticks)
  const ends = line(scale.at(scale.low), y, scale.at(scale.high), y, { stroke: INK })
  let reached = -Infinity
  const ticks = scale.ticks.map((tick, index) => {
    const x = scale.at(tick)
    const half = textWidth(texts[index]!, SMALL_PX) / 2
    const hasRoom = x - half > reached && x + half <= rightEdge
    if (hasRoom) reached = x + half + 4
    return (
      line(x, y, x, y + TICK_PX, { stroke: INK }) +
      (hasRoom
        ? words(x, y + TICK_PX + 12, texts[index]!, { 'text-anchor': 'middle', 'font-size': SMALL_PX })
        : '')
    )
  })
  const middle = (scale.at(scale.low) + scale.at(scale.high)) / 2
  return ends + ticks.join('') + words(middle, y + TICK_PX + 29, label, { 'text-anchor': 'middle' })
}

/** How far the numbers of an upright axis reach to its left, px. */
export function roomForTicks(scale: LinearScale): number {
  return Math.max(...tickTexts(scale.ticks).map((text) => textWidth(text, SMALL_PX))) + TICK_PX + 4
}
