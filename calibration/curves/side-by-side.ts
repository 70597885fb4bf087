import type { Advice, Verdict } from '../fitted.ts'
import { type Refusal, refuse } from '../refusal.ts'

/** Pairs wanted, band of k taken as 1, and scatter of the ratios allowed. */
const PAIRS_WANTED = 10
const FACTOR_LOW = 0.9
const FACTOR_HIGH = 1.1
const SCATTER_PASS = 0.05

export interface SideBySide {
  /** k = Σ reference / Σ probe: multiply the probe's lux by it */
  factor: number
  /** sample standard deviation of the ratios over their mean; null with one pair */
  scatterOfRatios: number | null
  /** of the factor, as a part of it: scatter / √n; null with one pair */
  relativeStandardUncertainty: number | null
  pairCount: number
  verdict: Verdict
  advice: Advice[]
}

/**
 * Two light sensors side by side under open sky to the factor that makes the probe agree with the reference.
 * @param pairs  lux at the same moments, above 0, neither at full scale
 * @see ratio-of-sums estimator: Cochran 1977, Sampling Techniques, 3rd ed., §6.1
 * @example probe 38 000 lx, reference 40 000 lx: k = 1.0526
 */
export function sideBySideFactor(
  pairs: readonly { probeLux: number; referenceLux: number; saturated?: boolean }[],
): SideBySide | Refusal {
  if (pairs.length === 0) return refuse('E_POINTS_FEW', `No pair was given; take at least ${PAIRS_WANTED}.`)
  for (const pair of pairs) {
    if (pair.saturated === true) {
      return refuse(
        'E_REFERENCE_SATURATED',
        'A pair has a sensor at full scale; the true light is unknown. Leave it out.',
      )
    }
    if (
      !(pair.probeLux > 0 && pair.referenceLux > 0) ||
      !Number.isFinite(pair.probeLux + pair.referenceLux)
    ) {
      return refuse(
        'E_SETTING',
        `A pair reads ${pair.probeLux} and ${pair.referenceLux} lx; both must be above 0.`,
      )
    }
  }
  const n = pairs.length
  const factor = sum(pairs.map((pair) => pair.referenceLux)) / sum(pairs.map((pair) => pair.probeLux))
  const ratios = pairs.map((pair) => pair.referenceLux / pair.probeLux)
  const mean = sum(ratios) / n
  const scatter = n < 2 ? null : Math.sqrt(sum(ratios.map((ratio) => (ratio - mean) ** 2)) / (n - 1)) / mean
  return {
    factor,
    scatterOfRatios: scatter,
    relativeStandardUncertainty: scatter === null ? null : scatter / Math.sqrt(n),
    pairCount: n,
    ...judge(factor, scatter, n),
  }
}

function judge(factor: number, scatter: number | null, n: number): { verdict: Verdict; advice: Advice[] } {
  const advice: Advice[] = []
  if (n < PAIRS_WANTED) {
    advice.push({
      code: 'few-pairs',
      text: `Only ${n} pairs; take at least ${PAIRS_WANTED} in changing light.`,
    })
  }
  if (factor < FACTOR_LOW || factor > FACTOR_HIGH) {
    advice.push({
      code: 'factor-applied',
      text: `The factor is ${factor.toFixed(3)}, more than 10 % from 1. Apply it, and check dome and level.`,
    })
  }
  if (scatter !== null && scatter > SCATTER_PASS) {
    advice.push({
      code: 'pairs-scatter',
      text: `The ratios scatter by ${(100 * scatter).toFixed(1)} %; 5 % is allowed. Wait for even cloud and keep shadows off both.`,
    })
  }
  return { verdict: advice.length === 0 ? 'pass' : 'warn', advice }
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, each) => total + each, 0)
}
