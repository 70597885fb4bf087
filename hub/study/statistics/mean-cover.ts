import { isRefusal, type Refusal } from '../../../calibration/index.ts'
import { refuseLevel, refuseNumbers } from './check-numbers.ts'
import { type Frequency, frequency } from './frequency.ts'
import { meanInterval } from './mean-interval.ts'
import { refuse } from './refusals.ts'

/** How much of a species there is, and how widely. */
export interface MeanCover extends Frequency {
  /** over all quadrats recorded, zeros included */
  meanCoverPercent: number
  /** Student-t interval of it, cut at 0 and 100 %; null for one quadrat */
  meanCoverLowPercent: number | null
  meanCoverHighPercent: number | null
  /** over the quadrats where it grows; null when it grows nowhere */
  meanCoverWherePresentPercent: number | null
}

/**
 * Mean cover and percentage frequency of one species.
 * @param coverPercent  one entry a quadrat, 0–100; 0 is looked and absent, null is not recorded and left out
 * @returns refusal `E_TOO_FEW` when no quadrat is recorded, `E_NOT_FINITE`, `E_LEVEL` outside 0–100
 * @example 12 0 0.5 35 null 4 0 20 8 0: mean 8.83 % of 9 quadrats, frequency 66.7 %
 */
export function meanCover(coverPercent: readonly (number | null)[], level = 0.95): MeanCover | Refusal {
  const recorded = coverPercent.filter((each) => each !== null)
  const wrong = refuseNumbers(recorded, 'cover') ?? refuseLevel(level)
  if (wrong !== null) return wrong
  const outside = recorded.find((each) => each < 0 || each > 100)
  if (outside !== undefined) {
    return refuse('E_LEVEL', `A cover is ${outside} %; one species covers 0–100 %. Correct the typing.`)
  }
  const present = recorded.filter((each) => each > 0)
  const howOften = frequency(present.length, recorded.length, level)
  if (isRefusal(howOften)) return howOften
  const interval = recorded.length < 2 ? null : meanInterval(recorded, level)
  if (isRefusal(interval)) return interval
  return {
    ...howOften,
    meanCoverPercent: meanOf(recorded),
    meanCoverLowPercent: interval === null ? null : Math.max(0, interval.low),
    meanCoverHighPercent: interval === null ? null : Math.min(100, interval.high),
    meanCoverWherePresentPercent: present.length === 0 ? null : meanOf(present),
  }
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length
}
