import { type Refusal, refuse } from '../refusal.ts'

export interface Line {
  slope: number
  intercept: number
  /** null when there are only as many points as parameters */
  slopeStandardError: number | null
  interceptStandardError: number | null
  residualStandardDeviation: number | null
  degreesOfFreedom: number
  meanX: number
  /** Σ(x − mean)², the leverage of the points */
  sumSquaresX: number
  n: number
}

/**
 * Straight line y = intercept + slope·x by ordinary least squares, x free of error, equal scatter in y.
 * @param x,y  equal length, at least two, finite, in any order; at least two different x
 * @returns the line with standard errors; with exactly two points the errors are null
 * @see Draper & Smith 1998, Applied Regression Analysis, 3rd ed., ch. 1; certified values: NIST StRD "Norris"
 */
export function fitLine(x: readonly number[], y: readonly number[]): Line | Refusal {
  const n = x.length
  if (n !== y.length)
    return refuse('E_POINTS_FEW', `x has ${n} numbers and y has ${y.length}; they must pair up.`)
  if (n < 2) return refuse('E_POINTS_FEW', `A line needs at least two points; ${n} given.`)
  const meanX = mean(x)
  const meanY = mean(y)
  let sumSquaresX = 0
  let sumProducts = 0
  for (let i = 0; i < n; i++) {
    const dx = x[i]! - meanX
    sumSquaresX += dx * dx
    sumProducts += dx * (y[i]! - meanY)
  }
  const first = x[0]!
  if (!(sumSquaresX > 0) || x.every((each) => each === first)) {
    return refuse('E_SAME_REFERENCE', `All ${n} points lie at ${first}; a line needs two different ones.`)
  }
  const slope = sumProducts / sumSquaresX
  const intercept = meanY - slope * meanX
  const degreesOfFreedom = n - 2
  let sumSquaredResiduals = 0
  for (let i = 0; i < n; i++) {
    const residual = y[i]! - meanY - slope * (x[i]! - meanX)
    sumSquaredResiduals += residual * residual
  }
  const s = degreesOfFreedom > 0 ? Math.sqrt(sumSquaredResiduals / degreesOfFreedom) : null
  return {
    slope,
    intercept,
    slopeStandardError: s === null ? null : s / Math.sqrt(sumSquaresX),
    interceptStandardError: s === null ? null : s * Math.sqrt(1 / n + (meanX * meanX) / sumSquaresX),
    residualStandardDeviation: s,
    degreesOfFreedom,
    meanX,
    sumSquaresX,
    n,
  }
}

/**
 * Straight line through the origin, y = slope·x, by ordinary least squares; residual variance on n − 1.
 * @see certified values: NIST StRD "NoInt1"
 */
export function fitLineThroughOrigin(
  x: readonly number[],
  y: readonly number[],
): { slope: number; slopeStandardError: number | null; residualStandardDeviation: number | null } | Refusal {
  const n = x.length
  if (n !== y.length || n < 1) return refuse('E_POINTS_FEW', 'A line through the origin needs paired points.')
  let xx = 0
  let xy = 0
  for (let i = 0; i < n; i++) {
    xx += x[i]! * x[i]!
    xy += x[i]! * y[i]!
  }
  if (!(xx > 0))
    return refuse('E_SAME_REFERENCE', 'All points lie at 0; a line through the origin needs another.')
  const slope = xy / xx
  let residuals = 0
  for (let i = 0; i < n; i++) residuals += (y[i]! - slope * x[i]!) ** 2
  const s = n > 1 ? Math.sqrt(residuals / (n - 1)) : null
  return { slope, slopeStandardError: s === null ? null : s / Math.sqrt(xx), residualStandardDeviation: s }
}

function mean(numbers: readonly number[]): number {
  let sum = 0
  for (const each of numbers) sum += each
  return sum / numbers.length
}
