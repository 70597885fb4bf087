import type { BudgetLine, BudgetName } from '../fitted.ts'

/**
 * Budget lines for sources known by statement or published limits alone: endless degrees of freedom.
 * What is not stated, or is zero, is left out; a sign is dropped.
 * @see JCGM 100:2008 §4.3 (Type B evaluation), G.4.2
 */
export function statedTerms(terms: Partial<Record<BudgetName, number | undefined>>): BudgetLine[] {
  const lines: BudgetLine[] = []
  for (const [name, size] of Object.entries(terms)) {
    if (size === undefined || size === 0 || Number.isNaN(size)) continue
    lines.push({
      name: name as BudgetName,
      standardUncertainty: Math.abs(size),
      degreesOfFreedom: Number.POSITIVE_INFINITY,
    })
  }
  return lines
}

/** Root sum of squares of budget lines. */
export function rootSumOfSquares(lines: readonly BudgetLine[]): number {
  let sum = 0
  for (const line of lines) sum += line.standardUncertainty * line.standardUncertainty
  return Math.sqrt(sum)
}
