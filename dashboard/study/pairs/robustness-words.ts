/**
 * How a correlation stands up to the measurement uncertainty, as a count out of 100.
 * @param share  0–1, of redraws that are significant; null when there was nothing to draw
 * @param isSignificant  of the values as measured, p ≤ 0.05
 */
export function robustnessWords(share: number | null, isSignificant: boolean): string {
  if (share === null) return 'How robust it is cannot be told: there is no test to repeat.'
  const often = `In ${Math.round(share * 100)} of 100 redraws within your uncertainty it`
  return isSignificant ? `${often} stays significant.` : `${often} would be significant.`
}
