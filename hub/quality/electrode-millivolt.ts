import type { SeriesTraits } from './quality-test.ts'

/** How many mV one unit of the signal is; null when the signal is no voltage. */
export function millivoltPerUnit({ signalUnit }: SeriesTraits): number | null {
  if (signalUnit === 'mV') return 1
  return signalUnit === 'V' ? 1000 : null
}

const IDEAL_MILLIVOLT_PER_PH = 57
const MAY_DIFFER_BY_MILLIVOLT = 150

/**
 * Is the signal the electrode's own voltage? Many boards send an amplified one, lifted to the middle of the
 * converter's range: 2500 mV is then pH 7 and no rail. The value tells: at pH v a bare electrode gives about
 * 57 · (7 − v) mV, whatever its offset and slope within what a calibration passes.
 */
export function isBareElectrode(millivolt: number, ph: number): boolean {
  return Math.abs(millivolt - IDEAL_MILLIVOLT_PER_PH * (7 - ph)) <= MAY_DIFFER_BY_MILLIVOLT
}
