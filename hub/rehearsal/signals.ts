import type { HabitatState } from './habitat.ts'
import { electrodeMillivolt, type ProbeTruths } from './probe-truths.ts'
import type { Chance } from './seeded-chance.ts'

/** Full scale of the light sensor's 16-bit register. */
export const fullScaleCounts = 65_535

/** Numbers as the board prints them. */
export interface BoardSignals {
  readonly phMillivolt: number
  readonly moistureCounts: number
  readonly lightCounts: number
  readonly temperatureCelsius: number
  readonly windHertz: number
}

/**
 * The physics of the probes, forwards: from the state of the soil and the air to what the electronics give,
 * with a little reading noise and the steps of each converter.
 * @param instant  whole milliseconds since the start: noise belongs to the moment, not to the order of asking
 */
export function signalsOf(
  chance: Chance,
  board: string,
  probes: ProbeTruths,
  state: HabitatState,
  instant: number,
  gateSeconds: number,
): BoardSignals {
  const noise = (channel: string) => chance.normal(`noise/${board}/${channel}`, instant)
  const { electrode, wetness, light, thermometer, cups } = probes

  const electrodeReading = electrodeMillivolt(electrode, state.soilPh, state.soilTemperatureCelsius)
  const wetnessReading = wetness.drySignal - (wetness.drySignal - wetness.wetSignal) * state.relativeWetness
  const lightReading = ((state.illuminanceLux * 1.2) / light.factor) * (1 + 0.002 * noise('light'))
  const thermometerReading = state.soilTemperatureCelsius - thermometer.offsetCelsius

  // the cups stand still below the speed at which the line of the calibration meets zero
  const turning = Math.max(0, state.windMetresPerSecond - cups.offsetMetresPerSecond)
  const expectedPulses = (turning / cups.slopeMetresPerSecondPerHertz) * gateSeconds
  const pulses = Math.floor(expectedPulses + chance.uniform(`phase/${board}`, instant))

  return {
    phMillivolt: rounded(electrodeReading + 0.25 * noise('ph'), 1),
    moistureCounts: Math.round(wetnessReading + 0.8 * noise('moisture')),
    lightCounts: Math.min(fullScaleCounts, Math.round(lightReading)),
    temperatureCelsius: Math.round((thermometerReading + 0.02 * noise('temperature')) * 16) / 16,
    windHertz: rounded(turning > 0 ? pulses / gateSeconds : 0, 3),
  }
}

function rounded(value: number, digits: number): number {
  // adding 0 turns −0 into 0, which is how a board prints it
  return Number(value.toFixed(digits)) + 0
}
