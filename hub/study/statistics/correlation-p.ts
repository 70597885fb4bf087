import { studentTCdf } from '../../../calibration/index.ts'

/**
 * Two-tailed p of a correlation coefficient by t = r·√((n − 2)/(1 − r²)) with n − 2 degrees of freedom.
 * Exact for Pearson's r of normal values, an approximation for Spearman's rho.
 * @returns null for n ≤ 2, where any two points lie on a line
 * @see Fisher 1915, Biometrika 10, 507–521; Kendall & Gibbons 1990, Rank Correlation Methods, 5th ed., §4.18
 */
export function correlationPByStudentT(coefficient: number, n: number): number | null {
  if (n <= 2) return null
  const rest = (1 - coefficient) * (1 + coefficient)
  if (rest === 0) return 0
  const t = Math.abs(coefficient) * Math.sqrt((n - 2) / rest)
  return 2 * studentTCdf(-t, n - 2)
}
