/** Upper limits of the sum of absolute corrections for each rating; above `fair` is poor. */
export interface RatingLimits {
  excellent: number
  good: number
  fair: number
}

/**
 * Accuracy ratings of a continuous record, limits in the quantity's unit.
 * @see Wagner, Boulger, Oblinger & Smith 2006, USGS Techniques and Methods 1-D3, rating table; limits from memory
 */
export const ACCURACY_RATINGS: Readonly<Record<string, RatingLimits>> = {
  soil_ph: { excellent: 0.2, good: 0.5, fair: 0.8 },
  soil_temperature: { excellent: 0.2, good: 0.5, fair: 0.8 },
}
