import { normalQuantile } from '../../../calibration/index.ts'

export interface CorrelationInterval {
  low: number
  high: number
}

/**
 * Interval of Spearman's rho on the scale z = atanh(rho), with variance (1 + rho²/2)/(n − 3).
 * @param rho  between −1 and 1
 * @param n  number of pairs
 * @param level  of confidence, 0–1
 * @returns null for n < 4, or for a perfect order, which leaves nothing to judge its spread by
 * @see Bonett & Wright 2000, Psychometrika 65, 23–28
 */
export function spearmanInterval(rho: number, n: number, level = 0.95): CorrelationInterval | null {
  return intervalByZ(rho, n, 1 + (rho * rho) / 2, level)
}

/**
 * Interval of Pearson's r on the scale z = atanh(r), with variance 1/(n − 3).
 * @see Fisher 1921, Metron 1(4), 3–32
 */
export function pearsonInterval(r: number, n: number, level = 0.95): CorrelationInterval | null {
  return intervalByZ(r, n, 1, level)
}

function intervalByZ(
  coefficient: number,
  n: number,
  varianceTimesRest: number,
  level: number,
): CorrelationInterval | null {
  if (n < 4 || Math.abs(coefficient) >= 1) return null
  const half = normalQuantile((1 + level) / 2) * Math.sqrt(varianceTimesRest / (n - 3))
  const z = Math.atanh(coefficient)
  return { low: Math.tanh(z - half), high: Math.tanh(z + half) }
}
