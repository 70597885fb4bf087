import { type ProbeLevels, railMillivolt } from './probe-levels.ts'
import type { ProbeTruths } from './probe-truths.ts'
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
 * The physics of the probes, forwards: from what the probes feel to what the electronics give,
 * with a little reading noise and the steps of each converter.
 * @param instant  whole milliseconds since the start: noise belongs to the moment, not to the order of asking
 */
export function signalsOf(
  chance: Chance,
  board: string,
  probes: ProbeTruths,
  levels: ProbeLevels,
  instant: number,
  gateSeconds: number,
): BoardSignals {
  const noise = (channel: string) => chance.normal(`noise/${board}/${channel}`, instant)
  const { wetness, light, thermometer, cups } = probes

  const wetnessReading = wetness.drySignal - (wetness.drySignal - wetness.wetSignal) * levels.relativeWetness
  const lightReading = ((levels.illuminanceLux * 1.2) / light.factor) * (1 + 0.002 * noise('light'))
  const thermometerReading = levels.celsius - thermometer.offsetCelsius

  // the cups stand still below the speed at which the line of the calibration meets zero
  const turning = Math.max(0, levels.windMetresPerSecond - cups.offsetMetresPerSecond)
  const expectedPulses = (turning / cups.slopeMetresPerSecondPerHertz) * gateSeconds
  const pulses = Math.floor(expectedPulses + chance.uniform(`phase/${board}`, instant))

  return {
    phMillivolt: rounded(electrodeReading(), 1),
    moistureCounts: Math.round(wetnessReading + 0.8 * noise('moisture')),
    lightCounts: Math.min(fullScaleCounts, Math.round(lightReading)),
    temperatureCelsius: Math.round((thermometerReading + 0.02 * noise('temperature')) * 16) / 16,
    windHertz: rounded(turning > 0 ? pulses / gateSeconds : 0, 3),
  }

  function electrodeReading(): number {
    const { electrodeMillivolt, electrodeUnrest } = levels
    if (electrodeUnrest === 'quiet') return electrodeMillivolt + 0.25 * noise('ph')
    // an open wire picks up the mains, and the amplifier can go no further than its rail
    if (electrodeUnrest === 'humming')
      return Math.min(railMillivolt, electrodeMillivolt - 12 + 25 * noise('hum'))
    // to and fro from reading to reading: never four alike
    const side = Math.round(instant / 1000 / gateSeconds) % 2 === 0 ? 1 : -1
    return electrodeMillivolt + side * chance.between(3, 9, `unrest/${board}`, instant)
  }
}

function rounded(value: number, digits: number): number {
  // adding 0 turns −0 into 0, which is how a board prints it
  return Number(value.toFixed(digits)) + 0
}
