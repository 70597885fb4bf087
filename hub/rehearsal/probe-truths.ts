import type { Spot } from './invented-site.ts'
import type { Chance } from './seeded-chance.ts'

/** How the five probes of a quadrat really are. The survey's calibrations say the same, except where a fault lies. */
export interface ProbeTruths {
  readonly electrode: {
    /** at pH 7.00, mV */
    readonly offsetMillivolt: number
    /** of the Nernst slope, 0…1, as found on the day of calibration */
    readonly slopeShare: number
  }
  readonly wetness: { readonly drySignal: number; readonly wetSignal: number }
  readonly light: { readonly factor: number }
  readonly thermometer: { readonly offsetCelsius: number }
  readonly cups: {
    readonly offsetMetresPerSecond: number
    readonly slopeMetresPerSecondPerHertz: number
  }
}

export function probeTruthsAt(chance: Chance, spot: Spot): ProbeTruths {
  const between = (low: number, high: number, digits: number, name: string) =>
    Number(chance.between(low, high, `probe/${name}/${spot.quadrat}`).toFixed(digits))
  return {
    electrode: {
      offsetMillivolt: between(-14, 14, 1, 'electrode-offset'),
      slopeShare: between(0.955, 1.005, 4, 'electrode-slope'),
    },
    wetness: {
      drySignal: between(800, 850, 0, 'dry-signal'),
      wetSignal: between(390, 430, 0, 'wet-signal'),
    },
    light: { factor: between(0.95, 1.08, 2, 'light-factor') },
    thermometer: { offsetCelsius: between(-0.4, 0.4, 2, 'thermometer-offset') },
    cups: {
      offsetMetresPerSecond: between(0.26, 0.34, 2, 'cup-offset'),
      slopeMetresPerSecondPerHertz: between(0.62, 0.7, 3, 'cup-slope'),
    },
  }
}

/**
 * Ideal slope of a pH electrode, mV per pH: ln 10 · R · T / F.
 * @see the exact SI values of R and F: 0.198421 mV per pH and kelvin
 */
export function nernstSlopeMillivolt(temperatureCelsius: number): number {
  return 0.198421 * (273.15 + temperatureCelsius)
}

/** What the electrode gave in a solution of known pH, mV. */
export function electrodeMillivolt(
  electrode: ProbeTruths['electrode'],
  ph: number,
  temperatureCelsius: number,
): number {
  return (
    electrode.offsetMillivolt + electrode.slopeShare * nernstSlopeMillivolt(temperatureCelsius) * (7 - ph)
  )
}
