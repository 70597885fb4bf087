import { normalCdf, type Refusal } from '../../../calibration/index.ts'
import { refuseNumbers } from './check-numbers.ts'
import { mannWhitneyExactP } from './mann-whitney-exact.ts'
import { midRanks, tieSum } from './mid-ranks.ts'
import { median } from './quantile.ts'

/** Both samples up to this size and without ties: every mixture is counted. */
const EXACT_UP_TO = 20

export interface MannWhitney {
  /** pairs in which the first sample's value is the greater, ties counting half */
  u1: number
  u2: number
  /** the smaller of both, for the printed tables */
  u: number
  /** two-tailed; null when all values are the same */
  p: number | null
  n1: number
  n2: number
  median1: number
  median2: number
  method: string
}

/**
 * Mann–Whitney U test of two areas: do the values of one tend to be greater?
 * @param first  values of one area, one or more
 * @param second  values of the other; areas need not have as many
 * @returns refusal `E_TOO_FEW` when one is empty, `E_NOT_FINITE`
 * @see Mann & Whitney 1947, Ann. Math. Stat. 18, 50–60; Hollander, Wolfe & Chicken 2014, Nonparametric Statistical
 *   Methods, 3rd ed., §4.1, for ties and continuity
 */
export function mannWhitney(first: readonly number[], second: readonly number[]): MannWhitney | Refusal {
  const wrong = refuseNumbers(first, 'first') ?? refuseNumbers(second, 'second')
  if (wrong !== null) return wrong
  const n1 = first.length
  const n2 = second.length
  const ranks = midRanks([...first, ...second])
  const rankSum = ranks.slice(0, n1).reduce((sum, rank) => sum + rank, 0)
  const u1 = rankSum - (n1 * (n1 + 1)) / 2
  const u2 = n1 * n2 - u1
  const u = Math.min(u1, u2)
  return {
    u1,
    u2,
    u,
    ...pOf(u, n1, n2, tieSum(ranks)),
    n1,
    n2,
    median1: median(first),
    median2: median(second),
  }
}

function pOf(u: number, n1: number, n2: number, ties: number): { p: number | null; method: string } {
  if (ties === 0 && n1 <= EXACT_UP_TO && n2 <= EXACT_UP_TO) {
    return { p: mannWhitneyExactP(u, n1, n2), method: 'exact' }
  }
  const n = n1 + n2
  const variance = ((n1 * n2) / 12) * (n + 1 - ties / (n * (n - 1)))
  if (!(variance > 0)) return { p: null, method: 'not defined: all values are the same' }
  const z = Math.max(0, (n1 * n2) / 2 - u - 0.5) / Math.sqrt(variance)
  return {
    p: Math.min(1, 2 * normalCdf(-z)),
    method: `normal approximation with continuity correction${ties > 0 ? ' and tie correction' : ''}`,
  }
}
