import { STEADY_RULES, type SteadyRule } from '../../calibration/index.ts'

/** Gusts are the habitat: wind is never steady, it is averaged over a block of time. Common practice, no source. */
const WIND_BLOCK: SteadyRule = { windowSeconds: 30, minimumSamples: 3, span: 100 }
/** For a quantity of the class’s own, and for a signal without a calibration. Common practice, no source. */
const ANY: SteadyRule = { windowSeconds: 15, minimumSamples: 4, span: 0, relativeSpan: 0.02 }
/** 0.05 pH at 59 mV a pH */
const ELECTRODE: SteadyRule = { windowSeconds: 15, minimumSamples: 4, span: 3 }

/**
 * When a carried meter counts as steady in the field.
 * @param isValue  false: there is no calibration, so only the signal can be watched
 * @param signalUnit  of the channel, such as `mV`
 */
export function fieldRule(quantity: string, isValue: boolean, signalUnit: string): SteadyRule {
  if (quantity === 'wind_speed') return WIND_BLOCK
  if (isValue) return STEADY_RULES[quantity] ?? ANY
  return quantity === 'soil_ph' && signalUnit === 'mV' ? ELECTRODE : ANY
}

/** Waiting longer than this is not expected of anybody, by the domain’s practice; fast quantities are given less. */
const LONGEST_SECONDS = 300
const SHORTEST_SECONDS = 60
const WINDOWS_GIVEN = 20

/** After so long a signal that still moves may be kept, marked as not steady. Common practice, no source. */
export function unsteadyAfterSeconds(rules: readonly SteadyRule[]): number {
  const longest = Math.max(0, ...rules.map(({ windowSeconds }) => windowSeconds))
  return Math.min(LONGEST_SECONDS, Math.max(SHORTEST_SECONDS, longest * WINDOWS_GIVEN))
}
