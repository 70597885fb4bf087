import { ACCURACY_RATINGS } from './references/accuracy-ratings.ts'
import { type Refusal, refuse } from './refusal.ts'

export type AccuracyRating = 'excellent' | 'good' | 'fair' | 'poor'

/**
 * Rates a record by the sum of the absolute fouling and drift corrections that were put on it.
 * @param quantity  `soil_ph` or `soil_temperature`
 * @param corrections  in the quantity's unit; each counts by its size
 * @see Wagner, Boulger, Oblinger & Smith 2006, USGS Techniques and Methods 1-D3, rating table
 */
export function rateAccuracy(quantity: string, corrections: readonly number[]): AccuracyRating | Refusal {
  const limits = ACCURACY_RATINGS[quantity]
  if (limits === undefined) {
    const known = Object.keys(ACCURACY_RATINGS).join(', ')
    return refuse('E_SETTING', `There is no published rating for “${quantity}”; there is for ${known}.`)
  }
  if (!corrections.every(Number.isFinite)) return refuse('E_NOT_FINITE', 'A correction is not a number.')
  // rounded as the limits are printed, so that 0.3 + 0.2 is 0.5
  const sum = Math.round(corrections.reduce((total, each) => total + Math.abs(each), 0) * 1e6) / 1e6
  if (sum <= limits.excellent) return 'excellent'
  if (sum <= limits.good) return 'good'
  return sum <= limits.fair ? 'fair' : 'poor'
}
