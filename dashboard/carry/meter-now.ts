import type { HeldSample, SteadyRule } from '../../calibration/index.ts'
import type { Probe } from '../../hub/contract/survey.ts'
import { moveAt } from '../bench/hold/hold.ts'
import { describeSettling, type Settling } from '../bench/hold/steadiness-words.ts'
import { type HeldWindow, heldWindow, type LiveReading, samplesOf } from './held-window.ts'
import { fieldRule } from './steady-rule.ts'

/** One carried probe at this moment of a hold. */
export interface ProbeNow {
  probe: Probe
  rule: SteadyRule
  /** of this insertion */
  samples: HeldSample[]
  /** false: without a calibration the signal is all there is to watch */
  isValue: boolean
  unit: string
  newest: LiveReading | null
  settling: Settling
  window: HeldWindow | null
  hasMoved: boolean
}

/**
 * How a probe stands in the present insertion.
 * @param readings  all that are remembered, rising in time
 * @param markMs  readings up to this time belong to what was before
 */
export function probeNow(
  probe: Probe,
  readings: readonly LiveReading[],
  markMs: number,
  units: { signal: string; value: string | null },
): ProbeNow {
  const inserted = readings.filter(({ timeMs }) => timeMs > markMs)
  const newest = readings.at(-1) ?? null
  const { samples, isValue } = samplesOf(inserted.length > 0 ? inserted : readings.slice(-1))
  const unit = isValue ? (units.value ?? '') : units.signal
  const rule = fieldRule(probe.quantity, isValue, units.signal)
  const held = inserted.length > 0 ? samples : []
  return {
    probe,
    rule,
    samples: held,
    isValue,
    unit,
    newest,
    settling: describeSettling(held, rule, unit),
    window: heldWindow(inserted, rule),
    hasMoved: moveAt(held, rule) !== null,
  }
}

/** The probe that the hand is waiting for: the one furthest from steady. */
export function slowest(probes: readonly ProbeNow[]): ProbeNow {
  return probes.reduce((slow, each) => (each.settling.closed < slow.settling.closed ? each : slow))
}
