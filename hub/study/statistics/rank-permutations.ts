/** How Σ (rank of x · rank of y) is spread when every order of y is equally likely. */
export interface RankPermutations {
  /** number of orders for each sum; index is the sum of products of ranks in steps from 0, see inSteps */
  ways: Float64Array
  /** all orders together */
  total: number
}

/**
 * Counts all orders of y against x without walking through them one by one: x's are placed in turn, and orders that
 * have used up the same y's are counted together, by the sum they have reached.
 * Equal y's are one group, so that ties cost less, not more.
 * @param xRanks  mid-ranks, 1…n
 * @param yRanks  mid-ranks of the same length; n ≤ 12 stays under half a second
 */
export function countRankPermutations(
  xRanks: readonly number[],
  yRanks: readonly number[],
): RankPermutations {
  const x = inSteps(xRanks)
  const groups = groupsOf(inSteps(yRanks))
  const width = largestSum(x, inSteps(yRanks)) + 1
  let layer = new Map<number, Float64Array>([[0, Float64Array.of(1)]])
  for (const rank of x) {
    const next = new Map<number, Float64Array>()
    for (const [state, ways] of layer) {
      for (const group of groups) {
        if (Math.floor(state / group.radix) % (group.size + 1) === group.size) continue
        const reached = state + group.radix
        const step = rank * group.rank
        next.set(reached, addShifted(next.get(reached), ways, step, width))
      }
    }
    layer = next
  }
  const ways = [...layer.values()][0]!
  return { ways, total: ways.reduce((sum, each) => sum + each, 0) }
}

/**
 * Share of all orders whose correlation is as far from 0 as the one seen, or farther: the exact two-tailed p.
 * All sums are whole numbers, so that "as far" does not hang on rounding.
 */
export function shareAsFar(
  { ways, total }: RankPermutations,
  xRanks: readonly number[],
  yRanks: readonly number[],
): number {
  const x = inSteps(xRanks)
  const y = inSteps(yRanks)
  const n = x.length
  const expected = sumOf(x) * sumOf(y)
  const distance = Math.abs(n * sumOf(x.map((rank, k) => rank * y[k]!)) - expected)
  let far = 0
  for (const [sum, count] of ways.entries()) {
    if (Math.abs(n * sum - expected) >= distance) far += count
  }
  return Math.min(1, far / total)
}

/** Ranks as whole numbers from 0: whole ranks in steps of 1, lists with halves among them in steps of a half. */
function inSteps(ranks: readonly number[]): number[] {
  const stepsPerRank = ranks.every(Number.isInteger) ? 1 : 2
  return ranks.map((rank) => stepsPerRank * (rank - 1))
}

interface Group {
  rank: number
  size: number
  /** place value of this group in the number that says how many of each group are used */
  radix: number
}

function groupsOf(ranks: readonly number[]): Group[] {
  const groups: Group[] = []
  for (const rank of [...ranks].sort((one, other) => one - other)) {
    const last = groups.at(-1)
    // groups come in order, so the one before is complete when the next begins
    if (last?.rank === rank) last.size++
    else groups.push({ rank, size: 1, radix: last === undefined ? 1 : last.radix * (last.size + 1) })
  }
  return groups
}

function addShifted(
  into: Float64Array | undefined,
  ways: Float64Array,
  step: number,
  width: number,
): Float64Array {
  const length = Math.min(width, ways.length + step)
  let target = into ?? new Float64Array(length)
  if (target.length < length) {
    const longer = new Float64Array(length)
    longer.set(target)
    target = longer
  }
  for (let k = 0; k < ways.length && k + step < length; k++) target[k + step]! += ways[k]!
  return target
}

/** The sum when both are in the same order: no order gives more. */
function largestSum(x: readonly number[], y: readonly number[]): number {
  const up = (one: number, other: number) => one - other
  const inOrder = [...y].sort(up)
  return sumOf([...x].sort(up).map((rank, k) => rank * inOrder[k]!))
}

function sumOf(numbers: readonly number[]): number {
  return numbers.reduce((sum, each) => sum + each, 0)
}
