import { correlationPByStudentT } from './correlation-p.ts'
import { countRankPermutations, type RankPermutations, shareAsFar } from './rank-permutations.ts'

/** Up to this many pairs every order is counted; beyond, p is approximated. */
const EXACT_UP_TO = 12

/** True when p comes from counting all orders, not from an approximation. */
export function isSpearmanPExact(n: number): boolean {
  return n <= EXACT_UP_TO
}

/**
 * Two-tailed p of Spearman's rho for one y and any number of x: exact by counting all orders for n ≤ 12, ties or not;
 * Student's t above. What was counted is kept, so that asking again for other x of the same ties costs little.
 * @param yRanks  mid-ranks
 * @returns a function of rho and the mid-ranks of x; 0–1
 * @see Kendall & Gibbons 1990, Rank Correlation Methods, 5th ed., ch. 4
 */
export function spearmanPOf(yRanks: readonly number[]): (rho: number, xRanks: readonly number[]) => number {
  const counted = new Map<string, RankPermutations>()
  return (rho, xRanks) => {
    const n = xRanks.length
    if (!isSpearmanPExact(n)) return Math.max(leastP(n), correlationPByStudentT(rho, n)!)
    const ties = [...xRanks].sort((one, other) => one - other).join(' ')
    const orders = counted.get(ties) ?? countRankPermutations(xRanks, yRanks)
    counted.set(ties, orders)
    return shareAsFar(orders, xRanks, yRanks)
  }
}

/** No order can be rarer than itself and its reverse among all n! orders, whatever the approximation says. */
function leastP(n: number): number {
  let orders = 1
  for (let k = 2; k <= n && orders < Number.MAX_VALUE; k++) orders *= k
  return 2 / orders
}
