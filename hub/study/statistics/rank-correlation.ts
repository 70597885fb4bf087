/**
 * Spearman's coefficient of two lists of mid-ranks: Pearson's r of the ranks, right with ties as without.
 * The short cut 1 − 6Σd²/(n³ − n) is the same number only where there are no ties.
 * Worked in whole half-ranks, so that turning a list round flips the sign and nothing else.
 * @returns −1…1, or null when a list is constant: then no order exists
 * @see Kendall & Gibbons 1990, Rank Correlation Methods, 5th ed., ch. 3
 */
export function rankCorrelation(xRanks: readonly number[], yRanks: readonly number[]): number | null {
  const n = xRanks.length
  // ranks lie evenly about (n + 1)/2
  let products = 0
  let squaresX = 0
  let squaresY = 0
  for (let k = 0; k < n; k++) {
    const x = 2 * xRanks[k]! - (n + 1)
    const y = 2 * yRanks[k]! - (n + 1)
    products += x * y
    squaresX += x * x
    squaresY += y * y
  }
  if (squaresX === 0 || squaresY === 0) return null
  const rho =
    squaresX === squaresY ? products / squaresX : products / (Math.sqrt(squaresX) * Math.sqrt(squaresY))
  return Math.max(-1, Math.min(1, rho))
}

/** Σd² of the differences of ranks, as worked by hand. */
export function sumOfSquaredRankDifferences(xRanks: readonly number[], yRanks: readonly number[]): number {
  return xRanks.reduce((sum, rank, k) => sum + (rank - yRanks[k]!) ** 2, 0)
}
