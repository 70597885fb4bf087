import type { Refusal } from '../../../calibration/index.ts'
import { refusePairs } from './check-numbers.ts'
import { midRanks } from './mid-ranks.ts'
import { rankCorrelation } from './rank-correlation.ts'

/** With fewer pairs a middle cannot be told from the ends. */
const FEWEST_PAIRS = 6
/** How strongly y must follow the distance from the middle of the gradient; class practice, no source. */
const CLEAR = 0.6

/**
 * A pattern that a rank correlation cannot see: most in the middle of the gradient (a species of edges), or least.
 * Found where y follows the distance of x's rank from the middle rank more strongly than it follows x itself.
 * @param x  the factor
 * @param y  the species
 * @returns null when neither, or for fewer than six pairs; refusal `E_UNPAIRED`, `E_TOO_FEW`, `E_NOT_FINITE`
 */
export function findHump(x: readonly number[], y: readonly number[]): 'hump' | 'dip' | null | Refusal {
  const wrong = refusePairs(x, y)
  if (wrong !== null) return wrong
  if (x.length < FEWEST_PAIRS) return null
  const xRanks = midRanks(x)
  const yRanks = midRanks(y)
  const fromMiddle = midRanks(xRanks.map((rank) => Math.abs(rank - (x.length + 1) / 2)))
  const along = rankCorrelation(xRanks, yRanks)
  const across = rankCorrelation(fromMiddle, yRanks)
  if (along === null || across === null || Math.abs(across) < CLEAR) return null
  if (Math.abs(across) <= Math.abs(along)) return null
  return across < 0 ? 'hump' : 'dip'
}
