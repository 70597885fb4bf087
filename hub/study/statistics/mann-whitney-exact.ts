/**
 * Exact two-tailed p of Mann–Whitney's U without ties: twice the share of all ways to mix both samples that give
 * this U or a smaller one, by counting how many ways reach each U.
 * @param u  the smaller of both U, whole
 * @param n1  size of one sample, 1 or more
 * @param n2  size of the other
 * @see Mann & Whitney 1947, Ann. Math. Stat. 18, 50–60: the recursion of their eq. 5
 */
export function mannWhitneyExactP(u: number, n1: number, n2: number): number {
  // ways[i][k]: mixtures of i of the first sample with the second so far that reach U = k
  let ways: Float64Array[] = Array.from({ length: n1 + 1 }, () => Float64Array.of(1))
  for (let second = 1; second <= n2; second++) {
    const next: Float64Array[] = [Float64Array.of(1)]
    for (let first = 1; first <= n1; first++) {
      // the greatest value is of the first sample and beats all `second`, or it is of the second and beats none
      next.push(added(ways[first]!, next[first - 1]!, second))
    }
    ways = next
  }
  const all = ways[n1]!
  const total = all.reduce((sum, each) => sum + each, 0)
  const atMost = all.slice(0, u + 1).reduce((sum, each) => sum + each, 0)
  return Math.min(1, (2 * atMost) / total)
}

function added(one: Float64Array, other: Float64Array, shift: number): Float64Array {
  const sum = new Float64Array(Math.max(one.length, other.length + shift))
  sum.set(one)
  for (let k = 0; k < other.length; k++) sum[k + shift]! += other[k]!
  return sum
}
