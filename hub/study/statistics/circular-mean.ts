import type { Refusal } from '../../../calibration/index.ts'
import { refuseNumbers } from './check-numbers.ts'

const SECONDS_OF_DAY = 86_400

/** Below this the times point all round the clock, and no time of day stands for them. */
const SHORTEST_RESULTANT = 1e-9

export interface CircularMean {
  n: number
  /** 0–86 400, seconds since midnight; null when the times cancel out, such as 06:00 and 18:00 */
  secondsOfDay: number | null
  /** 1 all at the same time … 0 spread evenly round the clock */
  resultantLength: number
}

/**
 * Mean time of day, taken round the clock: 23:50 and 00:10 give 00:00, not 12:00.
 * @param secondsOfDay  since midnight in one time zone; whole days are taken off
 * @returns refusal `E_TOO_FEW` when empty, `E_NOT_FINITE`
 * @see Mardia & Jupp 2000, Directional Statistics, §2.2
 */
export function circularMeanOfDay(secondsOfDay: readonly number[]): CircularMean | Refusal {
  const wrong = refuseNumbers(secondsOfDay, 'times')
  if (wrong !== null) return wrong
  const n = secondsOfDay.length
  let east = 0
  let north = 0
  for (const seconds of secondsOfDay) {
    const angle = (2 * Math.PI * (seconds % SECONDS_OF_DAY)) / SECONDS_OF_DAY
    east += Math.sin(angle) / n
    north += Math.cos(angle) / n
  }
  const resultantLength = Math.min(1, Math.hypot(east, north))
  if (resultantLength < SHORTEST_RESULTANT) return { n, secondsOfDay: null, resultantLength }
  const seconds = (Math.atan2(east, north) * SECONDS_OF_DAY) / (2 * Math.PI)
  // to the millisecond first, so that a trace below midnight does not become the end of the day
  const rounded = Math.round(seconds * 1000) / 1000
  return { n, secondsOfDay: (rounded + SECONDS_OF_DAY) % SECONDS_OF_DAY, resultantLength }
}
