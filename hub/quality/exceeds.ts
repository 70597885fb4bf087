/**
 * Is a difference worked out from two numbers above a limit? Equality passes, and so does what only the rounding
 * of binary numbers lifts above it: 5.93 − 5.91 is not more than 0.02.
 * @param magnitude  the larger of the two numbers, whose rounding the difference carries
 */
export function exceeds(difference: number, limit: number, magnitude: number): boolean {
  return difference - limit > 8 * Number.EPSILON * (Math.abs(magnitude) + Math.abs(limit))
}
