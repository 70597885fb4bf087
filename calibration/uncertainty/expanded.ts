import { studentTQuantile } from './student-t.ts'

/**
 * Standard uncertainty to the half-width of an interval with a level of confidence: U = t·u.
 * @param standardUncertainty  k = 1, 0 or more
 * @param degreesOfFreedom  effective, above 0; Infinity gives the normal k = 1.96
 * @param level  of confidence, 0–1
 * @throws CalibrationError outside these ranges
 * @see JCGM 100:2008 G.3.2, G.6.4
 * @example 0.079 with 3.4 degrees of freedom gives 0.235 at 95 %
 */
export function expandedUncertainty(
  standardUncertainty: number,
  degreesOfFreedom: number,
  level = 0.95,
): number {
  return standardUncertainty * coverageFactor(degreesOfFreedom, level)
}

/** The k that a level of confidence asks for at these degrees of freedom. */
export function coverageFactor(degreesOfFreedom: number, level = 0.95): number {
  return studentTQuantile((1 + level) / 2, degreesOfFreedom)
}
