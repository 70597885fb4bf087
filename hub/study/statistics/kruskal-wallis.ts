import type { Refusal } from '../../../calibration/index.ts'
import { refuseNumbers } from './check-numbers.ts'
import { chiSquareTail } from './chi-square.ts'
import { midRanks, tieSum } from './mid-ranks.ts'
import { refuse } from './refusals.ts'

/** With fewer values in a group than this, the chi-square p is rough. */
const FEWEST_FOR_CHI_SQUARE = 5

export interface KruskalWallis {
  /** corrected for ties; null when all values are the same */
  h: number | null
  degreesOfFreedom: number
  /** null when h is */
  p: number | null
  n: number
  meanRanks: number[]
  /** true when a group is so small that p is only rough */
  isRough: boolean
  method: string
}

/**
 * Kruskal–Wallis test of several areas: do the values of some tend to be greater?
 * @param groups  two or more, each with one value or more
 * @returns refusal `E_TOO_FEW`, `E_NOT_FINITE`
 * @see Kruskal & Wallis 1952, J. Am. Stat. Assoc. 47, 583–621
 */
export function kruskalWallis(groups: readonly (readonly number[])[]): KruskalWallis | Refusal {
  if (groups.length < 2) {
    return refuse('E_TOO_FEW', `There is ${groups.length} group; comparing needs two groups or more.`)
  }
  for (const [k, group] of groups.entries()) {
    const wrong = refuseNumbers(group, `group ${k + 1}`)
    if (wrong !== null) return wrong
  }
  const ranks = midRanks(groups.flat())
  const n = ranks.length
  const meanRanks: number[] = []
  let spread = 0
  let start = 0
  for (const group of groups) {
    const mean = ranks.slice(start, start + group.length).reduce((sum, rank) => sum + rank, 0) / group.length
    meanRanks.push(mean)
    spread += group.length * (mean - (n + 1) / 2) ** 2
    start += group.length
  }
  const free = 1 - tieSum(ranks) / (n * (n * n - 1))
  const h = free > 0 ? (12 * spread) / (n * (n + 1)) / free : null
  const degreesOfFreedom = groups.length - 1
  return {
    h,
    degreesOfFreedom,
    p: h === null ? null : chiSquareTail(h, degreesOfFreedom),
    n,
    meanRanks,
    isRough: groups.some((group) => group.length < FEWEST_FOR_CHI_SQUARE),
    method:
      h === null ? 'not defined: all values are the same' : 'chi-square approximation, corrected for ties',
  }
}
