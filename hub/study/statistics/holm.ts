import type { Refusal } from '../../../calibration/index.ts'
import { refuseLevel } from './check-numbers.ts'
import { refuse } from './refusals.ts'

/** One of many tests, judged among its fellows. */
export interface HolmTest {
  /** as given */
  p: number | null
  /** compare with the level as if it were the only test; null where p is */
  adjustedP: number | null
  /** what p itself is compared with: level/(m − i + 1) for the i-th smallest; null where p is */
  threshold: number | null
  isSignificant: boolean
}

export interface Holm {
  /** tests that gave a p */
  testCount: number
  /** how many of them would look significant though nothing is there: level × tests */
  expectedFalseAlarms: number
  /** in the order given */
  tests: HolmTest[]
}

/**
 * Holm's correction for many tests at once: the chance of even one false alarm stays at the level.
 * @param ps  two-tailed or one-tailed p's, 0–1; null for a test that was not defined, which does not count
 * @param level  of significance, 0–1
 * @returns refusal `E_TOO_FEW` when empty, `E_LEVEL` for what is no probability
 * @see Holm 1979, Scand. J. Stat. 6, 65–70
 * @example 24 tests: 1.2 false alarms expected, first threshold 0.05/24 = 0.0021
 */
export function holm(ps: readonly (number | null)[], level = 0.05): Holm | Refusal {
  const wrong = refuseLevel(level)
  if (wrong !== null) return wrong
  if (ps.length === 0) return refuse('E_TOO_FEW', '“p” is empty. Give the p of each test.')
  const noProbability = ps.find((p) => p !== null && !(p >= 0 && p <= 1))
  if (noProbability !== undefined) {
    return refuse('E_LEVEL', `A p is ${noProbability}; probabilities lie in 0–1.`)
  }
  const tests: HolmTest[] = ps.map((p) => ({ p, adjustedP: null, threshold: null, isSignificant: false }))
  const ordered = tests.filter((test) => test.p !== null).sort((one, other) => one.p! - other.p!)
  let adjusted = 0
  for (const [k, test] of ordered.entries()) {
    const remaining = ordered.length - k
    adjusted = Math.max(adjusted, Math.min(1, remaining * test.p!))
    test.adjustedP = adjusted
    test.threshold = level / remaining
    test.isSignificant = adjusted <= level
  }
  return { testCount: ordered.length, expectedFalseAlarms: level * ordered.length, tests }
}
