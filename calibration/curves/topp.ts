/** Coefficients of the Topp polynomial, constant first. */
const THETA = [-5.3e-2, 2.92e-2, -5.5e-4, 4.3e-6] as const
const PERMITTIVITY = [3.03, 9.3, 146.0, -76.7] as const

/** Range of the paper's four mineral soils, relative permittivity: about 0.03 to 0.5 m³/m³. */
export const TOPP_LOW = 3
export const TOPP_HIGH = 40

/** Standard error of estimate of the published fit over mineral soils, m³/m³ (same paper, from memory). */
export const TOPP_STANDARD_ERROR = 0.013

/**
 * Relative permittivity of mineral soil to volumetric water content, m³/m³, by the Topp polynomial.
 * Rises throughout; below about 1.9 it is negative and at 80 (water) it is 0.965: flag, do not clamp.
 * @see Topp, Davis & Annan 1980, Water Resources Research 16(3), 574–582, doi 10.1029/WR016i003p00574
 * @example 20 gives 0.3454
 */
export function toppWaterContent(permittivity: number): number {
  return THETA[0] + permittivity * (THETA[1] + permittivity * (THETA[2] + permittivity * THETA[3]))
}

/**
 * Volumetric water content to relative permittivity, by the paper's own separate fit: a round trip is close, not exact.
 * @param waterContent  0–0.55 m³/m³
 * @see same paper, inverse polynomial
 */
export function toppPermittivity(waterContent: number): number {
  return (
    PERMITTIVITY[0] +
    waterContent * (PERMITTIVITY[1] + waterContent * (PERMITTIVITY[2] + waterContent * PERMITTIVITY[3]))
  )
}

/** The permittivity at which {@link toppWaterContent} gives exactly this water content, by Newton's method. */
export function solveToppPermittivity(waterContent: number): number {
  let permittivity = toppPermittivity(Math.min(Math.max(waterContent, 0), 0.6))
  for (let step = 0; step < 60; step++) {
    const slope = THETA[1] + permittivity * (2 * THETA[2] + permittivity * 3 * THETA[3])
    const next = permittivity - (toppWaterContent(permittivity) - waterContent) / slope
    if (Math.abs(next - permittivity) < 1e-12 * Math.max(1, Math.abs(next))) return next
    permittivity = next
  }
  return permittivity
}

/** Slope of {@link toppWaterContent}, m³/m³ per unit of permittivity. */
export function toppSlope(permittivity: number): number {
  return THETA[1] + permittivity * (2 * THETA[2] + permittivity * 3 * THETA[3])
}
