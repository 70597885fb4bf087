import { studentTQuantile } from '../../../calibration/index.ts'

/**
 * Least |rho| that is significant at 0.05, two-tailed, without ties, for n = 5…30: three decimals.
 * To n = 18 each is the exact value from counting all orders; beyond, the Edgeworth series of Best & Roberts 1975.
 * @see Best & Roberts 1975, Appl. Stat. 24, 377–379 (algorithm AS 89); Zar 1972, J. Am. Stat. Assoc. 67, 578–580
 */
const CRITICAL_FROM_FIVE = [
  1.0, 0.886, 0.786, 0.738, 0.7, 0.648, 0.618, 0.587, 0.56, 0.538, 0.521, 0.503, 0.488, 0.472, 0.46, 0.447,
  0.436, 0.425, 0.416, 0.407, 0.398, 0.39, 0.383, 0.375, 0.368, 0.362,
] as const

/**
 * The critical value of Spearman's rho at 0.05, two-tailed.
 * @param n  number of pairs
 * @returns null for n < 5, where not even a perfect order is significant; above 30 by the t approximation
 */
export function criticalSpearman(n: number): number | null {
  if (n < 5) return null
  const tabled = CRITICAL_FROM_FIVE[n - 5]
  if (tabled !== undefined) return tabled
  const t = studentTQuantile(0.975, n - 2)
  return t / Math.sqrt(n - 2 + t * t)
}
