import type { Refusal } from '../../../calibration/index.ts'
import { chiSquareTail } from './chi-square.ts'
import { fisherExactP } from './fisher-exact.ts'
import { refuse } from './refusals.ts'

/** Below this expected count in any cell, chi-square is not to be trusted; use Fisher's exact p. */
const SMALLEST_EXPECTED = 5
const MOST_QUADRATS = 100_000

/** Quadrats by which of two species grow in them. */
export interface TwoSpeciesCounts {
  both: number
  firstOnly: number
  secondOnly: number
  neither: number
}

export interface TwoSpecies {
  n: number
  /** more, fewer or just as many quadrats with both as chance would give; null when not defined */
  association: 'together' | 'apart' | 'as by chance' | null
  expectedBoth: number
  smallestExpected: number
  /** true when an expected count is under 5: read Fisher's p, not chi-square's */
  isExpectedTooSmall: boolean
  /** without a correction, 1 degree of freedom */
  chiSquare: number | null
  p: number | null
  /** with Yates' correction */
  chiSquareYates: number | null
  pYates: number | null
  /** Fisher's exact, two-tailed */
  pFisher: number | null
}

/**
 * Do two species share quadrats more or less often than by chance?
 * All tests are null when a species grows everywhere or nowhere: then nothing can be said.
 * @returns refusal `E_NOT_WHOLE` or `E_NEGATIVE` for what is no count, `E_TOO_FEW` without quadrats, `E_TOO_MANY`
 * @see Yates 1934, Suppl. J. R. Stat. Soc. 1, 217–235; Cochran 1954, Biometrics 10, 417–451, on expected counts
 */
export function twoSpecies(counts: TwoSpeciesCounts): TwoSpecies | Refusal {
  const { both, firstOnly, secondOnly, neither } = counts
  const n = both + firstOnly + secondOnly + neither
  const wrong = refuseCounts(counts, n)
  if (wrong !== null) return wrong
  const first = both + firstOnly
  const second = both + secondOnly
  const expectedBoth = (first * second) / n
  const smallestExpected = (Math.min(first, n - first) * Math.min(second, n - second)) / n
  const described = {
    n,
    expectedBoth,
    smallestExpected,
    isExpectedTooSmall: smallestExpected < SMALLEST_EXPECTED,
  }
  if (smallestExpected === 0) {
    const none = { chiSquare: null, p: null, chiSquareYates: null, pYates: null, pFisher: null }
    return { ...described, association: null, ...none }
  }
  const cross = both * neither - firstOnly * secondOnly
  const margins = first * second * (n - first) * (n - second)
  const chiSquare = (n * cross * cross) / margins
  const corrected = Math.max(0, Math.abs(cross) - n / 2)
  const chiSquareYates = (n * corrected * corrected) / margins
  return {
    ...described,
    association: cross > 0 ? 'together' : cross < 0 ? 'apart' : 'as by chance',
    chiSquare,
    p: chiSquareTail(chiSquare, 1),
    chiSquareYates,
    pYates: chiSquareTail(chiSquareYates, 1),
    pFisher: fisherExactP(both, firstOnly, secondOnly, neither),
  }
}

function refuseCounts(counts: TwoSpeciesCounts, n: number): Refusal | null {
  for (const [name, count] of Object.entries(counts)) {
    if (!Number.isInteger(count)) {
      return refuse('E_NOT_WHOLE', `“${name}” is ${count}; quadrats are counted in whole numbers.`)
    }
    if (count < 0) return refuse('E_NEGATIVE', `“${name}” is ${count}; a count is 0 or more.`)
  }
  if (n === 0)
    return refuse('E_TOO_FEW', 'No quadrat was counted. Give the quadrats with both, one or neither species.')
  if (n > MOST_QUADRATS)
    return refuse('E_TOO_MANY', `${n} quadrats; at most ${MOST_QUADRATS} are worked out here.`)
  return null
}
