import { type Refusal, refuse } from '../refusal.ts'

export interface CupFactor {
  offsetMetresPerSecond: number
  slopeMetresPerSecondPerHertz: number
}

/** Wind stronger than this is outside what a class instrument meets, m/s. */
export const IMPOSSIBLE_WIND_METRES_PER_SECOND = 40

/**
 * Pulse frequency of a cup anemometer to wind speed, U = A + B·f.
 * @param hertz  pulses per second over the whole averaging block, 0 or more
 * @returns m/s; no pulses means calm, which is 0, never the offset A
 * @see ISO 17713-1:2007; IEC 61400-12-1, annex on cup anemometer calibration
 */
export function windFromHertz(hertz: number, factor: CupFactor): number {
  return hertz > 0 ? factor.offsetMetresPerSecond + factor.slopeMetresPerSecondPerHertz * hertz : 0
}

/**
 * Pulses counted over an interval to wind speed.
 * @param pulses  whole, 0 or more
 * @param seconds  length of the interval, above 0
 */
export function windFromPulses(
  pulses: number,
  seconds: number,
  factor: CupFactor,
): { metresPerSecond: number; calm: boolean } | Refusal {
  const bad = refusePulses(pulses) ?? refuseFactor(factor)
  if (bad !== null) return bad
  if (!(seconds > 0) || !Number.isFinite(seconds)) {
    return refuse('E_INTERVAL', `Pulses were counted over ${seconds} s; an interval is longer than 0 s.`)
  }
  return { metresPerSecond: windFromHertz(pulses / seconds, factor), calm: pulses === 0 }
}

/** Pulses are counted one by one: negative or broken numbers mean a counter that was reset or misread. */
export function refusePulses(pulses: number): Refusal | null {
  if (pulses >= 0 && Number.isInteger(pulses)) return null
  return refuse('E_COUNT', `${pulses} pulses cannot be counted; was the counter reset? Pulses are 0, 1, 2, …`)
}

/** A cup turns faster in more wind, and needs some wind to start. */
export function refuseFactor(factor: CupFactor): Refusal | null {
  const { offsetMetresPerSecond: offset, slopeMetresPerSecondPerHertz: slope } = factor
  if (!(slope > 0) || !Number.isFinite(slope)) {
    return refuse('E_SETTING', `The cup factor is ${slope} m/s per Hz; it must be above 0.`)
  }
  if (Number.isFinite(offset) && Math.abs(offset) <= 5) return null
  return refuse('E_SETTING', `The cup offset is ${offset} m/s; it lies between −5 and 5, mostly 0 to 0.5.`)
}
