import type { SoilSample } from '../recipe.ts'
import { type Refusal, refuse } from '../refusal.ts'

/** Density of water, g/cm³. */
export const WATER_DENSITY = 1

/** Density of the solid grains, g/cm³: mineral soil 2.65; peat about 1.4. */
export const MINERAL_PARTICLE_DENSITY = 2.65
export const ORGANIC_PARTICLE_DENSITY = 1.4

export interface SoilWater {
  /** water per dry soil, g/g; above 1 is right for peat */
  gravimetric: number
  /** water per fresh soil, g/g, as some school texts want it */
  wetBasis: number
  /** g/cm³ */
  bulkDensity: number
  /** m³/m³ */
  volumetricWaterContent: number
}

/**
 * An oven-dried ring of soil to its water content: w = (wet − dry)/(dry − tin), ρ_b = (dry − tin)/V, θ = w·ρ_b/ρ_w.
 * @param sample  masses in g, each with its tin; ring volume in cm³; wet ≥ dry > tin ≥ 0
 * @returns a refusal `E_MASS_ORDER` when the oven made the soil heavier or nothing was left in the tin
 * @see ISO 11465:1993 (105 °C, dry mass); ISO 11272 bulk density by the core method; ISO 16586 volumetric content
 * @example 145.60 g → 121.00 g in a 25.00 g tin, 80.0 cm³: w 0.25625, ρ_b 1.20, θ 0.3075
 */
export function soilWater(sample: Omit<SoilSample, 'signal' | 'role'>): SoilWater | Refusal {
  const { wetGram, dryGram, tinGram, ringCubicCentimetre } = sample
  if (![wetGram, dryGram, tinGram, ringCubicCentimetre].every(Number.isFinite)) {
    return refuse('E_NOT_FINITE', 'A mass or the ring volume is not a number. Weigh again.')
  }
  if (dryGram > wetGram) {
    return refuse(
      'E_MASS_ORDER',
      `The oven-dry mass ${dryGram} g is larger than the wet mass ${wetGram} g. Were the two swapped, or the tins?`,
    )
  }
  if (tinGram < 0 || dryGram <= tinGram) {
    return refuse(
      'E_MASS_ORDER',
      `The dry mass ${dryGram} g includes the tin of ${tinGram} g, so it must be larger.`,
    )
  }
  if (ringCubicCentimetre <= 0) {
    return refuse('E_SETTING', `The ring holds ${ringCubicCentimetre} cm³; measure its height and width.`)
  }
  const solid = dryGram - tinGram
  const water = wetGram - dryGram
  return {
    gravimetric: water / solid,
    wetBasis: water / (solid + water),
    bulkDensity: solid / ringCubicCentimetre,
    volumetricWaterContent: water / WATER_DENSITY / ringCubicCentimetre,
  }
}

/** Pore space of a soil, m³/m³: 1 − ρ_b / grain density. */
export function porosity(bulkDensity: number, particleDensity: number = MINERAL_PARTICLE_DENSITY): number {
  return 1 - bulkDensity / particleDensity
}
