/**
 * The value that a share of the sample lies at or below, between two order statistics by a straight line.
 * @param sorted  ascending, one value or more
 * @param share  0–1; 0 is the smallest value, 0.5 the median, 1 the largest
 * @see Hyndman & Fan 1996, Am. Stat. 50, 361–365: definition 7
 */
export function quantileOfSorted(sorted: readonly number[], share: number): number {
  const position = (sorted.length - 1) * share
  const below = Math.floor(position)
  const low = sorted[below]!
  const high = sorted[Math.min(below + 1, sorted.length - 1)]!
  return low + (position - below) * (high - low)
}

export function ascending(values: readonly number[]): number[] {
  return [...values].sort((one, other) => one - other)
}

/** Mid-value; for an even number of values the mean of the two in the middle. */
export function median(values: readonly number[]): number {
  return quantileOfSorted(ascending(values), 0.5)
}
