/**
 * The span of the value axis: all of the line and its band with a little air, and never so narrow that the last
 * digit fills the chart. Failed readings do not stretch it; they are marked at the edge.
 */
export function valueRange(
  lists: readonly (readonly (number | null | undefined)[])[],
  leastSpan: number,
): [number, number] {
  let low = Number.POSITIVE_INFINITY
  let high = Number.NEGATIVE_INFINITY
  for (const list of lists)
    for (const value of list)
      if (value !== null && value !== undefined) {
        if (value < low) low = value
        if (value > high) high = value
      }
  if (low > high) return [0, leastSpan]
  const isNeverBelowZero = low >= 0
  const middle = (low + high) / 2
  const span = Math.max(leastSpan, (high - low) * 1.16)
  const bottom = middle - span / 2
  return isNeverBelowZero && bottom < 0 ? [0, Math.max(span, high * 1.08)] : [bottom, middle + span / 2]
}
