import { normalQuantile, type Refusal } from '../../../calibration/index.ts'
import { refuseLevel } from './check-numbers.ts'
import { refuse } from './refusals.ts'

/** In how many quadrats a species grows. */
export interface Frequency {
  quadratsPresent: number
  /** quadrats in which it was looked for */
  quadratsRecorded: number
  /** 0–100 % */
  percentFrequency: number
  /** Wilson interval, 0–100 % */
  lowPercent: number
  highPercent: number
  level: number
}

/**
 * Percentage frequency: quadrats with the species of all quadrats recorded, with its interval.
 * The interval keeps inside 0–100 % and says something even at 0 of 10: there it ends at 28 %, not at 0.
 * @param quadratsPresent  whole, 0…quadratsRecorded
 * @param quadratsRecorded  whole, 1 or more; a blank quadrat is not recorded and does not count
 * @returns refusal `E_NOT_WHOLE`, `E_TOO_FEW`, `E_LEVEL`
 * @see Wilson 1927, J. Am. Stat. Assoc. 22, 209–212
 */
export function frequency(
  quadratsPresent: number,
  quadratsRecorded: number,
  level = 0.95,
): Frequency | Refusal {
  if (!Number.isInteger(quadratsPresent) || !Number.isInteger(quadratsRecorded)) {
    return refuse(
      'E_NOT_WHOLE',
      `${quadratsPresent} of ${quadratsRecorded} quadrats: both are whole numbers.`,
    )
  }
  if (quadratsRecorded < 1) {
    return refuse('E_TOO_FEW', 'No quadrat was recorded. A quadrat without the species is recorded as 0.')
  }
  if (quadratsPresent < 0 || quadratsPresent > quadratsRecorded) {
    return refuse(
      'E_LEVEL',
      `${quadratsPresent} of ${quadratsRecorded} quadrats: the first lies in 0…${quadratsRecorded}.`,
    )
  }
  const wrong = refuseLevel(level)
  if (wrong !== null) return wrong
  const n = quadratsRecorded
  const share = quadratsPresent / n
  const z = normalQuantile((1 + level) / 2)
  const whole = 1 + (z * z) / n
  const centre = (share + (z * z) / (2 * n)) / whole
  const half = (z / whole) * Math.sqrt((share * (1 - share)) / n + (z * z) / (4 * n * n))
  return {
    quadratsPresent,
    quadratsRecorded,
    percentFrequency: 100 * share,
    // at the ends the interval touches 0 and 100 exactly; rounding would leave a trace beside them
    lowPercent: quadratsPresent === 0 ? 0 : 100 * (centre - half),
    highPercent: quadratsPresent === n ? 100 : 100 * (centre + half),
    level,
  }
}
