import type { Refusal } from '../../../calibration/index.ts'
import { isConstant, refusePairs } from './check-numbers.ts'
import { midRanks, tieSum } from './mid-ranks.ts'
import { rankCorrelation, sumOfSquaredRankDifferences } from './rank-correlation.ts'
import { isSpearmanPExact, spearmanPOf } from './spearman-p.ts'

export interface Spearman {
  /** −1…1; null when not defined */
  rho: number | null
  /** two-tailed; null when not defined */
  p: number | null
  n: number
  /** how p was found, or why there is none */
  method: string
  /** true when equal values shared a rank */
  hasTies: boolean
  /** Σd², as worked by hand */
  sumOfSquaredDifferences: number
  /** 1 − 6Σd²/(n³ − n), right only without ties; null for one pair */
  shortCut: number | null
}

/**
 * Spearman's rank correlation of two lists that belong together, with its two-tailed p.
 * @param x  one or more, in any unit
 * @param y  as many
 * @returns rho and p null when a list is constant or there is one pair only; refusal `E_UNPAIRED`, `E_TOO_FEW` when
 *   empty, `E_NOT_FINITE`
 * @see Spearman 1904, Am. J. Psychol. 15, 72–101; Kendall & Gibbons 1990, Rank Correlation Methods, 5th ed., ch. 3–4
 * @example 3 5 8 12 20 33 47 60 78 95 with 2 0 5 5 12 30 25 60 55 80: rho 0.960, short cut 0.961
 */
export function spearman(x: readonly number[], y: readonly number[]): Spearman | Refusal {
  const wrong = refusePairs(x, y)
  if (wrong !== null) return wrong
  const n = x.length
  const xRanks = midRanks(x)
  const yRanks = midRanks(y)
  const rho = rankCorrelation(xRanks, yRanks)
  const sumOfSquaredDifferences = sumOfSquaredRankDifferences(xRanks, yRanks)
  const hasTies = tieSum(xRanks) + tieSum(yRanks) > 0
  const shortCut = n < 2 ? null : 1 - (6 * sumOfSquaredDifferences) / (n * (n * n - 1))
  const p = rho === null ? null : spearmanPOf(yRanks)(rho, xRanks)
  const method = rho === null ? whyNone(x, y) : howFound(n, hasTies)
  return { rho, p, n, method, hasTies, sumOfSquaredDifferences, shortCut }
}

function howFound(n: number, hasTies: boolean): string {
  const how = isSpearmanPExact(n) ? 'exact permutation' : 't approximation'
  return hasTies ? `${how}, ties as mid-ranks` : how
}

function whyNone(x: readonly number[], y: readonly number[]): string {
  if (x.length < 2) return 'not defined: one pair has no order'
  const constant = [isConstant(x) ? 'x' : '', isConstant(y) ? 'y' : ''].filter((name) => name !== '')
  return `not defined: all values of ${constant.join(' and ')} are the same`
}
