import { correctDrift, isRefusal, rateAccuracy } from '../../../calibration/index.ts'
import type { CheckJudged } from '../../../hub/contract/readiness.ts'

/** Checks further apart than this are of two occasions. */
const OCCASION_MS = 2 * 3_600_000

/** Checks after fieldwork that a correction of this calibration may rest on, newest first. */
export function checksForDrift(
  checks: readonly CheckJudged[],
  calibration: string,
): (CheckJudged & { reading: number; error: number })[] {
  return checks.filter(
    (check): check is CheckJudged & { reading: number; error: number } =>
      check.when === 'after' &&
      check.calibration === calibration &&
      check.reading !== null &&
      check.error !== null,
  )
}

export function isOneOccasion(checks: readonly Pick<CheckJudged, 'at'>[]): boolean {
  const times = checks.map(({ at }) => Date.parse(at))
  return Math.max(...times) - Math.min(...times) <= OCCASION_MS
}

export interface DriftShown {
  /** error at the check, for a reading like this one */
  errorAtCheck: number
  halfway: { error: number; corrected: number }
  isExtrapolated: boolean
}

/** What a correction would do to one reading taken half-way; a text says why it would do nothing. */
export function driftShown(
  calibratedAtMs: number,
  checks: readonly { at: string; reading: number; reference: number }[],
  reading: number,
): DriftShown | string {
  const checkedAt = Math.max(...checks.map(({ at }) => Date.parse(at)))
  const answer = correctDrift({
    calibratedAt: calibratedAtMs,
    checkedAt,
    readAt: (calibratedAtMs + checkedAt) / 2,
    reading,
    checks,
  })
  if (isRefusal(answer)) return answer.message
  return {
    errorAtCheck: answer.errorAtCheck,
    halfway: { error: answer.error, corrected: answer.corrected },
    isExtrapolated: answer.isExtrapolated,
  }
}

/** The published rating of a record that needed this correction, or nothing where none is published. */
export function ratingWords(quantity: string, error: number): string {
  const rating = rateAccuracy(quantity, [error])
  return isRefusal(rating)
    ? ''
    : `A record that needs this correction is rated ${rating} (USGS TM 1-D3, 2006).`
}

/** What to do about a drift of pH. Common practice for class electrodes, no published source. */
export function driftAdvice(quantity: string, error: number): string {
  if (quantity !== 'soil_ph') return ''
  const size = Math.round(Math.abs(error) * 1000) / 1000
  if (size <= 0.05) return 'As small as this it needs no correction.'
  if (size <= 0.2) return 'Correct it, or state it in the report.'
  return size <= 0.5
    ? 'Correct it and say so: the readings are doubtful.'
    : 'Too much to correct with trust: measure again if you can.'
}
