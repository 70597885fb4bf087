import {
  type CheckResult,
  fitCalibration,
  isRefusal,
  judgeCheck,
  type Verdict,
} from '../../calibration/index.ts'
import { ANY_CALIBRATION_INTERVAL_DAYS, quantityFacts } from '../contract/quantity-facts.ts'

import type { CheckJudged, ProbeReadiness } from '../contract/readiness.ts'
import type { Calibration, CheckStandard, Probe, SurveyFile } from '../contract/survey.ts'

const DAY_MS = 86_400_000

/**
 * May each probe of a survey go out? By its calibration in force, the age of that, and its last check standard.
 * @param nowMs UTC ms
 */
export function readinessOf(survey: SurveyFile, nowMs: number): ProbeReadiness[] {
  return survey.probes.map((probe) => {
    const attempts = survey.calibrations
      .filter((calibration) => calibration.probe === probe.id && Date.parse(calibration.validFrom) <= nowMs)
      .map((calibration) => ({
        calibration,
        atMs: Date.parse(calibration.validFrom),
        verdict: verdictOf(calibration),
      }))
      .sort((a, b) => a.atMs - b.atMs)
    const inForce = attempts.findLast(
      ({ calibration, verdict }) => !calibration.withdrawn && verdict !== 'fail',
    )
    const lastAttempt = attempts.at(-1)
    const intervalDays =
      probe.calibrationIntervalDays ??
      quantityFacts(probe.quantity)?.calibrationIntervalDays ??
      ANY_CALIBRATION_INTERVAL_DAYS
    const ageDays = inForce ? (nowMs - inForce.atMs) / DAY_MS : null
    const isDue = ageDays !== null && ageDays > intervalDays
    const checks = (survey.checks ?? [])
      .filter((check) => check.probe === probe.id && Date.parse(check.at) <= nowMs)
      .sort((a, b) => Date.parse(a.at) - Date.parse(b.at))
      .map((check) => judgeStoredCheck(survey, probe, check))
    const sinceCalibrated = inForce ? checks.filter(({ at }) => Date.parse(at) >= inForce.atMs) : []
    const lastCheck = sinceCalibrated.at(-1) ?? null
    const hasFailedSince =
      lastAttempt !== undefined && lastAttempt !== inForce && lastAttempt.verdict === 'fail'
    const state = stateOf({ probe, inForce: inForce?.verdict ?? null, isDue, lastCheck, hasFailedSince })
    return {
      probe: probe.id,
      quantity: probe.quantity,
      board: probe.board,
      channel: probe.channel,
      state,
      mayGoOut: state === 'ready',
      why: explain(state, { intervalDays, ageDays, lastCheck, reason: probe.withdrawn?.reason ?? null }),
      calibration: inForce?.calibration.id ?? null,
      calibratedAt: inForce?.calibration.validFrom ?? null,
      verdict: inForce?.verdict ?? null,
      ageDays,
      intervalDays,
      lastAttemptFailed: hasFailedSince,
      checks,
    }
  })
}

function verdictOf(calibration: Calibration): Verdict {
  const fitted = fitCalibration(calibration.recipe)
  return isRefusal(fitted) ? 'fail' : fitted.verdict
}

/** A stored check with its reading by the calibration in force at its moment, and its verdict. */
export function judgeStoredCheck(survey: SurveyFile, probe: Probe, check: CheckStandard): CheckJudged {
  const atMs = Date.parse(check.at)
  const calibration = survey.calibrations
    .filter(
      (candidate) =>
        candidate.probe === probe.id &&
        !candidate.withdrawn &&
        Date.parse(candidate.validFrom) <= atMs &&
        verdictOf(candidate) !== 'fail',
    )
    .sort((a, b) => Date.parse(a.validFrom) - Date.parse(b.validFrom))
    .at(-1)
  const fitted = calibration ? fitCalibration(calibration.recipe) : null
  const value =
    fitted && !isRefusal(fitted)
      ? fitted.valueAt(check.signal, {
          ...(check.signalUnit === '' ? {} : { signalUnit: check.signalUnit }),
          ...(check.temperatureCelsius === undefined ? {} : { temperatureCelsius: check.temperatureCelsius }),
        })
      : null
  const reading = value !== null && !isRefusal(value) ? value.value : null
  const judged = reading === null ? null : judgeCheck(probe.quantity, reading, check.reference)
  const result: CheckResult | null = judged === null || isRefusal(judged) ? null : judged
  return {
    id: check.id,
    at: check.at,
    when: check.when,
    reference: check.reference,
    referenceName: check.referenceName,
    reading,
    error: result?.error ?? null,
    passLimit: result?.passLimit ?? null,
    verdict: result?.verdict ?? null,
    calibration: calibration?.id ?? null,
  }
}

function stateOf(facts: {
  probe: Probe
  inForce: Verdict | null
  isDue: boolean
  lastCheck: CheckJudged | null
  hasFailedSince: boolean
}): ProbeReadiness['state'] {
  if (facts.probe.withdrawn) return 'withdrawn'
  if (facts.inForce === null) return facts.hasFailedSince ? 'failed' : 'never calibrated'
  if (facts.hasFailedSince || facts.lastCheck?.verdict === 'fail') return 'failed'
  if (facts.isDue) return 'due'
  return facts.lastCheck === null ? 'not checked' : 'ready'
}

function explain(
  state: ProbeReadiness['state'],
  facts: {
    intervalDays: number
    ageDays: number | null
    lastCheck: CheckJudged | null
    reason: string | null
  },
): string {
  const age = facts.ageDays === null ? '' : days(facts.ageDays)
  switch (state) {
    case 'withdrawn':
      return `Withdrawn: ${facts.reason}.`
    case 'never calibrated':
      return 'It has no calibration. It may log, but none of its readings can be clean.'
    case 'failed':
      return facts.lastCheck?.verdict === 'fail'
        ? `Its last check was off by ${number(facts.lastCheck.error)}, more than ${number(facts.lastCheck.passLimit)}. Clean it, then calibrate it again.`
        : 'Its last calibration failed, so the one before is still in force, if there is one. See what the bench says and try again.'
    case 'due':
      return `Its calibration is ${age} old; it is trusted for ${days(facts.intervalDays)}. Calibrate it again.`
    case 'not checked':
      return 'It is calibrated, but no check standard has been read since. Check it against a known reference.'
    case 'ready':
      return `Calibrated ${age} ago, and its check was off by ${number(facts.lastCheck?.error ?? null)}.`
  }
}

function days(count: number): string {
  if (count < 1) return `${Math.max(1, Math.round(count * 24))} h`
  return count < 1.5 ? '1 day' : `${Math.round(count)} days`
}

function number(value: number | null): string {
  // to the hundredth: more than a class probe can tell
  return value === null ? '?' : Math.abs(value).toFixed(2)
}
