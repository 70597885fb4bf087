import type { Refusal } from '../../../calibration/index.ts'
import { isConstant, refuseNumbers } from './check-numbers.ts'
import { deviationsOf } from './deviations.ts'
import { ascending, quantileOfSorted } from './quantile.ts'

/** What a list of numbers looks like; every field in the unit of the values unless it says otherwise. */
export interface Description {
  n: number
  mean: number
  /** of the sample, n − 1; null for one value, which has no spread */
  standardDeviation: number | null
  /** of the mean, s/√n; null for one value */
  standardError: number | null
  median: number
  /** quantiles of definition 7 */
  lowerQuartile: number
  upperQuartile: number
  minimum: number
  maximum: number
  /** how alike neighbours in the list are, −1…1, no unit; null when nothing varies */
  autocorrelationLag1: number | null
}

/**
 * Centre, spread and likeness of neighbours.
 * @param values  in the order they were measured, one or more
 * @returns refusal `E_TOO_FEW` when empty, `E_NOT_FINITE` for what is no number
 * @see NIST/ITL Statistical Reference Datasets, univariate summary: definitions of the three certified figures
 */
export function describeValues(values: readonly number[]): Description | Refusal {
  const wrong = refuseNumbers(values, 'x')
  if (wrong !== null) return wrong
  const n = values.length
  const { mean, each, sumOfSquares } = deviationsOf(values)
  const sorted = ascending(values)
  const standardDeviation = n < 2 ? null : isConstant(values) ? 0 : Math.sqrt(sumOfSquares / (n - 1))
  return {
    n,
    mean,
    standardDeviation,
    standardError: standardDeviation === null ? null : standardDeviation / Math.sqrt(n),
    median: quantileOfSorted(sorted, 0.5),
    lowerQuartile: quantileOfSorted(sorted, 0.25),
    upperQuartile: quantileOfSorted(sorted, 0.75),
    minimum: sorted[0]!,
    maximum: sorted[n - 1]!,
    autocorrelationLag1: isConstant(values) || sumOfSquares === 0 ? null : neighbours(each) / sumOfSquares,
  }
}

function neighbours(deviations: readonly number[]): number {
  let sum = 0
  for (let k = 1; k < deviations.length; k++) sum += deviations[k]! * deviations[k - 1]!
  return sum
}
