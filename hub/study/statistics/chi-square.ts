import { normalCdf } from '../../../calibration/index.ts'

/**
 * Probability of a chi-square at or above this one, in closed form for whole degrees of freedom.
 * @param chiSquare  0 or more
 * @param degreesOfFreedom  whole, 1 or more
 * @see Abramowitz & Stegun 1964, 26.4.4 (odd) and 26.4.5 (even)
 * @example 3.841 on 1 degree of freedom: 0.050
 */
export function chiSquareTail(chiSquare: number, degreesOfFreedom: number): number {
  if (chiSquare <= 0) return 1
  const isOdd = degreesOfFreedom % 2 === 1
  const root = Math.sqrt(chiSquare)
  let sum = isOdd ? 2 * normalCdf(-root) : 0
  let term = isOdd ? Math.sqrt(2 / Math.PI) * root * Math.exp(-chiSquare / 2) : Math.exp(-chiSquare / 2)
  for (let k = isOdd ? 1 : 0; k <= degreesOfFreedom - 2; k += 2) {
    sum += term
    term *= chiSquare / (k + 2)
  }
  return Math.min(1, sum)
}
