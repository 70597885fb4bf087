/** A list seen from its mean. */
export interface Deviations {
  mean: number
  /** value − mean, in the order of the values */
  each: number[]
  /** Σ deviation², corrected for what the rounded mean leaves over */
  sumOfSquares: number
}

/**
 * Mean and deviations in two passes, so that a small spread on a large mean keeps its digits.
 * @param values  one or more, each at most 1e150 in size
 * @see Chan, Golub & LeVeque 1983, Am. Stat. 37, 242–247: the corrected two-pass algorithm
 */
export function deviationsOf(values: readonly number[]): Deviations {
  const n = values.length
  // from the first value on, so that the sum stays as small as the spread
  const first = values[0]!
  const mean = first + total(values, (value) => value - first) / n
  const raw = values.map((value) => value - mean)
  const leftOver = total(raw, (deviation) => deviation)
  const sumOfSquares = total(raw, (deviation) => deviation * deviation) - (leftOver * leftOver) / n
  return { mean: mean + leftOver / n, each: raw, sumOfSquares: Math.max(0, sumOfSquares) }
}

/** Sum with the lost digits carried along. @see Neumaier 1974, Z. Angew. Math. Mech. 54, 39–51 */
function total(values: readonly number[], of: (value: number) => number): number {
  let sum = 0
  let lost = 0
  for (const value of values) {
    const next = of(value)
    const together = sum + next
    lost += Math.abs(sum) >= Math.abs(next) ? sum - together + next : next - together + sum
    sum = together
  }
  return sum + lost
}

/** Sample standard deviation (n − 1); null for fewer than two values, which have none. */
export function standardDeviation(values: readonly number[]): number | null {
  if (values.length < 2) return null
  return Math.sqrt(deviationsOf(values).sumOfSquares / (values.length - 1))
}
