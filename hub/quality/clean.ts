import type { Flag } from '../contract/flag.ts'
import type { Segment } from '../survey/timeline.ts'

/**
 * Clean, half one: the probe stood at a quadrat then, under a calibration that passed.
 * (A calibration that failed never comes into force, so having one is enough.)
 */
export function isCleanPlace(segment: Segment): boolean {
  return segment.quadrat !== null && segment.calibration !== null
}

/** Clean, half two: a value, and no flag worse than “not evaluated”. The store asks the same in SQL. */
export function isCleanReading(reading: { value: number | null; flag: Flag }): boolean {
  return reading.value !== null && (reading.flag === 1 || reading.flag === 2)
}
