import type { ChartMark } from '../../hub/contract/reading.ts'

/** Marks so close together on a chart that one finger would hit them all share a place. */
export interface MarkPlace {
  /** px from the left end of the plot */
  x: number
  marks: ChartMark[]
}

/**
 * Where the marks of a chart stand along its top, from left to right.
 * @param width  of the plot, px
 * @param apart  the least distance between two places, px
 */
export function placeMarks(
  marks: readonly ChartMark[],
  fromMs: number,
  toMs: number,
  width: number,
  apart: number,
): MarkPlace[] {
  if (toMs <= fromMs || width <= 0) return []
  const places: MarkPlace[] = []
  for (const mark of marks.toSorted((one, other) => one.timeMs - other.timeMs)) {
    if (mark.timeMs < fromMs || mark.timeMs > toMs) continue
    const x = ((mark.timeMs - fromMs) / (toMs - fromMs)) * width
    const last = places.at(-1)
    if (last && x - last.x < apart) last.marks.push(mark)
    else places.push({ x, marks: [mark] })
  }
  return places
}
