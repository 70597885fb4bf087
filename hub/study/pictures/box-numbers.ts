import { ascending, quantileOfSorted } from '../statistics/quantile.ts'

/** Of fewer values quartiles say less than the points themselves. Common practice, no source. */
export const FEWEST_FOR_A_BOX = 5
/** Whiskers reach to the last value within so many interquartile ranges of the box. */
const WHISKER_RANGES = 1.5

export interface BoxNumbers {
  lowerQuartile: number
  median: number
  upperQuartile: number
  whiskerLow: number
  whiskerHigh: number
}

/**
 * The box of a box plot.
 * @returns null for fewer than five values: points only
 * @see Tukey 1977, Exploratory Data Analysis, for whiskers to 1.5 interquartile ranges (from memory); quartiles by
 * definition 7 of Hyndman & Fan 1996
 */
export function boxNumbers(values: readonly number[]): BoxNumbers | null {
  if (values.length < FEWEST_FOR_A_BOX) return null
  const sorted = ascending(values)
  const lowerQuartile = quantileOfSorted(sorted, 0.25)
  const upperQuartile = quantileOfSorted(sorted, 0.75)
  const reach = WHISKER_RANGES * (upperQuartile - lowerQuartile)
  return {
    lowerQuartile,
    median: quantileOfSorted(sorted, 0.5),
    upperQuartile,
    whiskerLow: sorted.find((value) => value >= lowerQuartile - reach)!,
    whiskerHigh: sorted.findLast((value) => value <= upperQuartile + reach)!,
  }
}
