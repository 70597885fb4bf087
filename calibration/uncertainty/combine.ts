import type { BudgetLine } from '../fitted.ts'

/**
 * Combined standard uncertainty of independent sources and its effective degrees of freedom.
 * @see JCGM 100:2008 §5.1.2 (root sum of squares), G.4.1 eq. G.2b (Welch–Satterthwaite)
 */
export function combine(lines: readonly Omit<BudgetLine, 'name'>[]): {
  standardUncertainty: number
  degreesOfFreedom: number
} {
  let variance = 0
  let spread = 0
  for (const line of lines) {
    const own = line.standardUncertainty * line.standardUncertainty
    variance += own
    spread += (own * own) / line.degreesOfFreedom
  }
  return {
    standardUncertainty: Math.sqrt(variance),
    degreesOfFreedom: spread > 0 ? (variance * variance) / spread : Number.POSITIVE_INFINITY,
  }
}
