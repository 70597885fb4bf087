import { coverageFactor, type Refusal } from '../../../calibration/index.ts'
import { refuseLevel, refuseNumbers } from './check-numbers.ts'
import { deviationsOf } from './deviations.ts'

/** A mean and the interval that contains the true one with the stated confidence, from the scatter alone. */
export interface MeanInterval {
  n: number
  mean: number
  standardError: number
  low: number
  high: number
  /** of confidence, 0–1 */
  level: number
}

/**
 * Student-t interval of a mean: mean ± t·s/√n.
 * @param values  independent of each other, about normal or many; two or more
 * @param level  of confidence, 0–1
 * @returns refusal `E_TOO_FEW` for fewer than two values: one value shows no spread
 * @see Student 1908, Biometrika 6, 1–25; JCGM 100:2008 G.3.2
 */
export function meanInterval(values: readonly number[], level = 0.95): MeanInterval | Refusal {
  const wrong = refuseNumbers(values, 'x', 2) ?? refuseLevel(level)
  if (wrong !== null) return wrong
  const n = values.length
  const { mean, sumOfSquares } = deviationsOf(values)
  const standardError = Math.sqrt(sumOfSquares / (n - 1) / n)
  const half = coverageFactor(n - 1, level) * standardError
  return { n, mean, standardError, low: mean - half, high: mean + half, level }
}
