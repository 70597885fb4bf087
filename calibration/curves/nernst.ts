/** Molar gas constant, J/(mol·K), exact since the SI of 2019 (CODATA 2018). */
export const GAS_CONSTANT = 8.314462618

/** Faraday constant, C/mol, exact since the SI of 2019 (CODATA 2018). */
export const FARADAY_CONSTANT = 96485.33212

/** 0 °C in kelvin, by definition of the Celsius scale. */
export const KELVIN_AT_ZERO_CELSIUS = 273.15

const MILLIVOLT_PER_PH_PER_KELVIN = (1000 * Math.LN10 * GAS_CONSTANT) / FARADAY_CONSTANT

/**
 * Size of the theoretical slope of a pH electrode, mV per pH, at a temperature: ln(10)·R·T/F.
 * The electrode's millivolts fall by this much for each pH upwards.
 * @param celsius  finite, above −273.15
 * @see Buck et al. 2002, Pure Appl. Chem. 74(11), 2169–2200
 * @example 54.199 at 0 °C, 59.159 at 25 °C
 */
export function nernstSlope(celsius: number): number {
  return MILLIVOLT_PER_PH_PER_KELVIN * (celsius + KELVIN_AT_ZERO_CELSIUS)
}

/** pH at which a glass electrode's signal does not depend on temperature, by construction of the usual electrode. */
export const ISOPOTENTIAL_PH = 7

/**
 * pH from the electrode's millivolts, slope scaled to the sample's temperature about pH 7.
 * Only the electrode is compensated: the sample's own change of pH with temperature is real and stays.
 * @param slopePercent  of the theoretical slope
 * @see Buck et al. 2002, §11
 */
export function phFromMillivolt(
  millivolt: number,
  curve: { slopePercent: number; offsetMillivolt: number },
  celsius: number,
): number {
  return (
    ISOPOTENTIAL_PH -
    (millivolt - curve.offsetMillivolt) / ((curve.slopePercent / 100) * nernstSlope(celsius))
  )
}
