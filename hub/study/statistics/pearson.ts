import type { Refusal } from '../../../calibration/index.ts'
import { isConstant, refusePairs } from './check-numbers.ts'
import { correlationPByStudentT } from './correlation-p.ts'
import { deviationsOf } from './deviations.ts'

export interface Pearson {
  /** −1…1; null when a list is constant */
  r: number | null
  /** two-tailed, by Student's t; null when r is, or for fewer than three pairs */
  p: number | null
  n: number
}

/**
 * Pearson's correlation: how near the points lie to a straight line.
 * Only for two measured scales without one dominating point; never for cover classes.
 * @param x  one or more
 * @param y  as many
 * @returns refusal `E_UNPAIRED`, `E_TOO_FEW` when empty, `E_NOT_FINITE`
 * @see Pearson 1896, Phil. Trans. R. Soc. A 187, 253–318
 */
export function pearson(x: readonly number[], y: readonly number[]): Pearson | Refusal {
  const wrong = refusePairs(x, y)
  if (wrong !== null) return wrong
  const n = x.length
  const r = isConstant(x) || isConstant(y) ? null : coefficient(unitDeviations(x), unitDeviations(y))
  return { r, p: r === null ? null : correlationPByStudentT(r, n), n }
}

/** Deviations from the mean, the largest of them 1 in size: neither their squares nor their products run out of range. */
function unitDeviations(values: readonly number[]): number[] {
  const { each } = deviationsOf(values)
  const largest = Math.max(...each.map(Math.abs))
  return each.map((deviation) => deviation / largest)
}

function coefficient(x: readonly number[], y: readonly number[]): number {
  let products = 0
  let squaresX = 0
  let squaresY = 0
  for (let k = 0; k < x.length; k++) {
    products += x[k]! * y[k]!
    squaresX += x[k]! * x[k]!
    squaresY += y[k]! * y[k]!
  }
  return Math.max(-1, Math.min(1, products / Math.sqrt(squaresX * squaresY)))
}
