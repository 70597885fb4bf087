import { type Refusal, refuse } from '../refusal.ts'

/** One reading of the open-sky reference, rising in time. */
export interface OpenSkyReading {
  seconds: number
  lux: number
  saturated?: boolean
}

export interface RelativeLightQuestion {
  probeLux: number
  seconds: number
  /** side-by-side factor of the probe, 1 by default */
  factor?: number
  reference: readonly OpenSkyReading[]
  /** `broken` cloud asks for a reference within 2 s, `even` cloud within 15 s */
  sky?: 'broken' | 'even'
}

export type RelativeLightRemark = 'reference-stale' | 'reference-unsteady' | 'above-open-sky'

export interface RelativeLight {
  relativePercent: number
  referenceLux: number
  /** to the nearest reference reading */
  nearestSeconds: number
  /** each of them makes the value suspect; none: valid */
  remarks: RelativeLightRemark[]
}

const NEAREST_SECONDS = { broken: 2, even: 15 } as const
/** The reference is looked at this far to either side, and may change by this share of its mean. */
const AROUND_SECONDS = 15
const CHANGE_ALLOWED = 0.1
/** Nothing on the ground is brighter than open sky by more than the sensors disagree. */
const ABOVE_OPEN_SKY_PERCENT = 110
/** A reference further away than this says nothing about the moment. */
const FURTHEST_SECONDS = 300

/**
 * Light in a quadrat as a percentage of the open sky at the same moment: 100·k·L_q(t)/L_open(t).
 * The reference is interpolated in a straight line between the readings on either side of t.
 * @returns a refusal when a reference reading it rests on was saturated, is 0, or none lies within 5 minutes
 * @see Anderson 1964, J. Ecol. 52, 27–41, on relative light under canopies; validity limits are class practice
 * @example 3450 lx with k 1.0526 against 41 200 and 39 700 lx ten seconds after and five before: 9.03 %
 */
export function relativeLight(question: RelativeLightQuestion): RelativeLight | Refusal {
  const { probeLux, seconds, factor = 1, sky = 'even' } = question
  if (!Number.isFinite(probeLux) || probeLux < 0)
    return refuse('E_SETTING', `${probeLux} lx cannot be; light is 0 or more.`)
  if (!Number.isFinite(seconds)) return refuse('E_NOT_FINITE', 'The time of the reading is not a number.')
  if (!(factor > 0) || !Number.isFinite(factor))
    return refuse('E_SETTING', `The factor is ${factor}; it is above 0.`)
  const reference = question.reference.filter((each) => Number.isFinite(each.seconds))
  const before = reference.findLast((each) => each.seconds <= seconds)
  const after = reference.find((each) => each.seconds >= seconds)
  const nearestSeconds = Math.min(
    before === undefined ? Number.POSITIVE_INFINITY : seconds - before.seconds,
    after === undefined ? Number.POSITIVE_INFINITY : after.seconds - seconds,
  )
  if (nearestSeconds > FURTHEST_SECONDS) {
    return refuse(
      'E_REFERENCE_STALE',
      'There is no open-sky reading within five minutes. Log the reference throughout.',
    )
  }
  if (before?.saturated === true || after?.saturated === true) {
    return refuse(
      'E_REFERENCE_SATURATED',
      'The open-sky reference was at full scale, so relative light is unknown.',
    )
  }
  const referenceLux = interpolate(before, after, seconds)
  if (!(referenceLux > 0))
    return refuse('E_SETTING', `The open sky read ${referenceLux} lx; check the reference sensor.`)
  const relativePercent = (100 * factor * probeLux) / referenceLux
  const around = reference
    .filter((each) => Math.abs(each.seconds - seconds) <= AROUND_SECONDS)
    .map((each) => each.lux)
  const change = around.length < 2 ? 0 : (Math.max(...around) - Math.min(...around)) / referenceLux
  const remarks: RelativeLightRemark[] = []
  if (nearestSeconds > NEAREST_SECONDS[sky]) remarks.push('reference-stale')
  if (change > CHANGE_ALLOWED) remarks.push('reference-unsteady')
  if (relativePercent > ABOVE_OPEN_SKY_PERCENT) remarks.push('above-open-sky')
  return { relativePercent, referenceLux, nearestSeconds, remarks }
}

function interpolate(
  before: OpenSkyReading | undefined,
  after: OpenSkyReading | undefined,
  seconds: number,
): number {
  if (before === undefined) return after?.lux ?? Number.NaN
  if (after === undefined || after.seconds === before.seconds) return before.lux
  const share = (seconds - before.seconds) / (after.seconds - before.seconds)
  return before.lux + share * (after.lux - before.lux)
}

/** With one meter only: the two open readings may differ by this share of their mean. */
const BRACKET_ALLOWED = 0.2

/**
 * Relative light with one meter carried open – quadrat – open, against the mean of the two open readings.
 * @returns a refusal when the two differ by more than 20 % of their mean: the sky changed meanwhile
 */
export function relativeLightByBracket(
  openBeforeLux: number,
  quadratLux: number,
  openAfterLux: number,
): { relativePercent: number; referenceLux: number } | Refusal {
  if (![openBeforeLux, quadratLux, openAfterLux].every((lux) => Number.isFinite(lux) && lux >= 0)) {
    return refuse('E_SETTING', 'Light is 0 or more lx; one of the three readings is not.')
  }
  const referenceLux = (openBeforeLux + openAfterLux) / 2
  if (!(referenceLux > 0)) return refuse('E_SETTING', 'Both open readings are 0 lx; check the meter.')
  const change = Math.abs(openAfterLux - openBeforeLux) / referenceLux
  if (change > BRACKET_ALLOWED) {
    return refuse(
      'E_REFERENCE_UNSTEADY',
      `The open sky changed by ${(100 * change).toFixed(0)} % between the two readings; 20 % is allowed. Take all three again.`,
    )
  }
  return { relativePercent: (100 * quadratLux) / referenceLux, referenceLux }
}
