import { correctDrift, isRefusal } from '../../calibration/index.ts'
import { judgeStoredCheck } from './readiness.ts'
import type { Segment } from './timeline.ts'

/** Drift of one probe, as a person has asked to see it corrected: from a calibration to the checks after it. */
export interface DriftInForce {
  calibratedAtMs: number
  checkedAtMs: number
  checks: readonly { reference: number; reading: number }[]
}

/** The correction asked for on the calibration of a segment, or null. A check that had no reading corrects nothing. */
export function driftOf(segment: Segment): DriftInForce | null {
  const id = segment.calibration?.id
  const { survey, probe } = segment
  const asked = survey.driftCorrections?.find(
    (correction) => correction.calibration === id && correction.probe === probe.id,
  )
  const calibration = survey.calibrations.find((candidate) => candidate.id === id)
  if (!asked || !calibration) return null
  const judged = asked.checks.flatMap((checkId) => {
    const check = survey.checks?.find((candidate) => candidate.id === checkId)
    return check ? [judgeStoredCheck(survey, probe, check)] : []
  })
  const checks = judged.flatMap(({ reference, reading }) =>
    reading === null ? [] : [{ reference, reading }],
  )
  if (checks.length < asked.checks.length) return null
  return {
    calibratedAtMs: Date.parse(calibration.validFrom),
    checkedAtMs: Math.max(...judged.map(({ at }) => Date.parse(at))),
    checks,
  }
}

/** A value as it would be without the drift; null outside the time from calibration to check. */
export function correctedValue(drift: DriftInForce, timeMs: number, value: number): number | null {
  const answer = correctDrift({
    calibratedAt: drift.calibratedAtMs,
    checkedAt: drift.checkedAtMs,
    readAt: timeMs,
    reading: value,
    checks: drift.checks,
  })
  return isRefusal(answer) ? null : answer.corrected
}

/**
 * The same as two numbers for SQL: error at the check = `atZero` + `perUnit` × value, growing in a straight line of time.
 * Of one check standard the error is the same at every value.
 */
export function driftLine({ checks }: DriftInForce): { atZero: number; perUnit: number } {
  const [first, second] = checks
  const error = first!.reading - first!.reference
  if (!second || second.reading === first!.reading) return { atZero: error, perUnit: 0 }
  const perUnit = (second.reading - second.reference - error) / (second.reading - first!.reading)
  return { atZero: error - perUnit * first!.reading, perUnit }
}
