/**
 * Rank of each value from the smallest up; equal values share the mean of the ranks they take up.
 * @returns in the order of the values, 1…n, whole or halves
 * @see Kendall 1945, Biometrika 33, 239–251
 * @example 2 0 5 5 12 ranks 2 1 3.5 3.5 5
 */
export function midRanks(values: readonly number[]): number[] {
  const order = values.map((_, index) => index).sort((one, other) => values[one]! - values[other]!)
  const ranks = new Array<number>(values.length)
  for (let start = 0; start < order.length; ) {
    let end = start
    while (end + 1 < order.length && values[order[end + 1]!] === values[order[start]!]) end++
    for (let k = start; k <= end; k++) ranks[order[k]!] = (start + end) / 2 + 1
    start = end + 1
  }
  return ranks
}

/** Sizes of the groups of equal ranks, a value alone counting 1, ascending by rank. */
function tieSizes(ranks: readonly number[]): number[] {
  const sizes = new Map<number, number>()
  for (const rank of ranks) sizes.set(rank, (sizes.get(rank) ?? 0) + 1)
  return [...sizes.entries()].sort(([one], [other]) => one - other).map(([, size]) => size)
}

/** Σ (t³ − t) over groups of t equal values: 0 without ties. */
export function tieSum(ranks: readonly number[]): number {
  return tieSizes(ranks).reduce((sum, size) => sum + size * (size * size - 1), 0)
}
