import type { Verdict } from './fitted.ts'
import { type Refusal, refuse } from './refusal.ts'

/** How far a reading may lie from a check standard; a relative limit counts where it is the wider one. */
export interface CheckCriteria {
  pass: number
  warn: number
  passRelative?: number
  warnRelative?: number
}

/**
 * Limits by quantity, in its unit. Common practice in teaching and field ecology, no published source but for pH, where
 * 0.05 in a buffer that was not used in the fit is an electrode maker's storage and care note. Each may be edited.
 */
export const CHECK_CRITERIA: Readonly<Record<string, CheckCriteria>> = {
  soil_ph: { pass: 0.05, warn: 0.1 },
  soil_moisture: { pass: 0.03, warn: 0.05 },
  illuminance: { pass: 5, warn: 10, passRelative: 0.1, warnRelative: 0.2 },
  soil_temperature: { pass: 0.3, warn: 0.5 },
  wind_speed: { pass: 0.3, warn: 0.6, passRelative: 0.1, warnRelative: 0.2 },
}

export interface CheckResult {
  /** reading minus reference, in the quantity's unit */
  error: number
  /** the limits used, in the quantity's unit */
  passLimit: number
  warnLimit: number
  verdict: Verdict
}

/**
 * Holds a reading against a check standard: a known reference, measured without adjusting anything.
 * @param quantity  one of {@link CHECK_CRITERIA}, or give `criteria`
 * @returns the error and its verdict; a value equal to a limit is within it
 */
export function judgeCheck(
  quantity: string,
  reading: number,
  reference: number,
  criteria: CheckCriteria | undefined = CHECK_CRITERIA[quantity],
): CheckResult | Refusal {
  if (!Number.isFinite(reading) || !Number.isFinite(reference))
    return refuse('E_NOT_FINITE', 'The reading or the reference is not a number.')
  if (criteria === undefined)
    return refuse('E_SETTING', `There are no limits for a check of “${quantity}”; give pass and warn.`)
  const size = Math.abs(reference)
  const passLimit = Math.max(criteria.pass, (criteria.passRelative ?? 0) * size)
  const warnLimit = Math.max(criteria.warn, (criteria.warnRelative ?? 0) * size)
  const error = reading - reference
  // rounded so that 7.05 − 7.00 is 0.05
  const off = Math.round(Math.abs(error) * 1e9) / 1e9
  return {
    error,
    passLimit,
    warnLimit,
    verdict: off <= passLimit ? 'pass' : off <= warnLimit ? 'warn' : 'fail',
  }
}
