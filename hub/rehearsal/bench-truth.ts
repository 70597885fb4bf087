import type { BenchFaults } from './bench-faults.ts'
import type { Channel, Medium } from './bench-media.ts'
import type { HabitatState } from './habitat.ts'
import { bufferNames } from './technical-buffers.ts'

/** Quantities by the channel that measures them. */
const inSoil: Readonly<Record<Channel, keyof HabitatState>> = {
  ph: 'soilPh',
  moisture: 'relativeWetness',
  light: 'illuminanceLux',
  temperature: 'soilTemperatureCelsius',
  wind: 'windMetresPerSecond',
}

/** The true value of a medium of the bench, and of none of the soil; null where there is no such value. */
const onBench: Readonly<Record<string, (medium: Medium) => number | null>> = {
  'air-dry': () => 0,
  saturated: () => 1,
  dark: () => 0,
  lamp: ({ lux }) => lux ?? null,
  ice: () => 0,
  bath: ({ celsius }) => celsius ?? null,
  still: () => 0,
  fan: ({ metresPerSecond }) => metresPerSecond ?? null,
}

/**
 * What a perfect probe would read.
 * @param stateInSoil  of the soil and the air at the quadrat; asked only when the probe is there
 * @returns null where nothing can be read: distilled water has no steady pH, and air no wetness of soil
 */
export function trueValue(
  channel: Channel,
  medium: Medium,
  stateInSoil: () => HabitatState,
  faults: BenchFaults,
): number | null {
  if (medium.where === 'soil') return stateInSoil()[inSoil[channel]]
  const buffer = bufferNames.find((name) => name === medium.where)
  if (buffer) return faults.bottlePh(buffer, medium.celsius ?? Number.NaN)
  return onBench[medium.where]?.(medium) ?? null
}
