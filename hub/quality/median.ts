/**
 * The middle number; of an even count the mean of the middle two. NaN for none.
 * @param numbers  a handful: they are sorted, in a copy
 */
export function median(numbers: readonly number[]): number {
  const sorted = [...numbers].sort((a, b) => a - b)
  const middle = sorted.length >> 1
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2
}
