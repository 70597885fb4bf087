import type { Flag } from '../contract/flag.ts'
import type { Segment } from '../survey/timeline.ts'

/**
 * Clean: the probe stood at a quadrat then (a carried meter: held there, and steady), under a calibration that passed,
 * nobody has excluded it by hand, it has a
 * value, and no test made it suspect or failed; a suspect one counts where a person accepted it with a reason. A test that
 * could not run does not make a reading unclean. (A calibration that failed never comes into force, so having one is
 * enough; an impossible clock makes a reading suspect.)
 *
 * This file is the definition. The part that holds for a whole segment is {@link leftOutWhole}; the part that looks at
 * each reading is {@link isCleanReading}, and the same in SQL for downloads and counts, {@link CLEAN_ROW}.
 */
export function leftOutBy(segment: Segment | null, reading: JudgedReading): string | null {
  const whole = leftOutWhole(segment)
  if (whole !== null) return whole
  if (isCleanReading(reading, acceptsSuspect(segment))) return null
  return reading.reasons[0]?.test ?? NO_VALUE
}

export interface JudgedReading {
  value: number | null
  flag: Flag
  /** worst first */
  reasons: readonly { test: string }[]
}

export const NO_VALUE = 'no value'

/** Why all readings of a segment are left out, or null when that depends on each of them. */
export function leftOutWhole(segment: Segment | null): string | null {
  if (!segment || segment.quadrat === null) return 'not at a quadrat'
  if (segment.decision?.action === 'exclude') return 'excluded by hand'
  if (segment.spot && !segment.spot.isSteady) return 'spot reading not steady'
  return segment.calibration === null ? 'no passing calibration' : null
}

export function acceptsSuspect(segment: Segment | null): boolean {
  return segment?.decision?.action === 'accept'
}

export function isCleanReading(
  reading: { value: number | null; flag: Flag },
  acceptSuspect = false,
): boolean {
  if (reading.value === null) return false
  return reading.flag === 1 || reading.flag === 2 || (reading.flag === 3 && acceptSuspect)
}

/** {@link isCleanReading} for the store; `@acceptSuspect` is 1 or 0. */
export const CLEAN_ROW = '(value IS NOT NULL AND flag <= 2 + @acceptSuspect)'
