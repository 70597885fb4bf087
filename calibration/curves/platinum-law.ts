/** Coefficients of industrial platinum, IEC 60751:2008 §4.2. */
const A = 3.9083e-3
const B = -5.775e-7
const C = -4.183e-12

/** Range of the standard's two equations, °C. */
export const PLATINUM_LOW_CELSIUS = -200
export const PLATINUM_HIGH_CELSIUS = 850

/**
 * °C to resistance of a platinum thermometer: R₀(1 + At + Bt² + C(t − 100)t³), the last term below 0 °C only.
 * @param celsius  −200 to 850
 * @see IEC 60751:2008 §4.2
 * @example 100 °C gives 138.5055 Ω for R₀ = 100 Ω
 */
export function platinumOhm(celsius: number, ohmAtZero = 100): number {
  const cold = celsius < 0 ? C * (celsius - 100) * celsius ** 3 : 0
  return ohmAtZero * (1 + celsius * (A + B * celsius) + cold)
}

/**
 * Resistance of a platinum thermometer to °C: the quadratic's root from 0 °C upwards, Newton's method below.
 * @returns null outside −200…850 °C
 * @see IEC 60751:2008 §4.2
 */
export function platinumCelsius(ohm: number, ohmAtZero = 100): number | null {
  const ratio = ohm / ohmAtZero
  if (!(ratio >= COLDEST_RATIO && ratio <= HOTTEST_RATIO)) return null
  if (ratio === 1) return 0
  // this form of the root does not lose digits near 0 °C
  const warm = (2 * (ratio - 1)) / (A + Math.sqrt(A * A + 4 * B * (ratio - 1)))
  return ratio > 1 ? warm : refineCold(ratio, warm)
}

function refineCold(ratio: number, first: number): number {
  let celsius = first
  for (let step = 0; step < 20; step++) {
    const slope = A + 2 * B * celsius + C * (4 * celsius ** 3 - 300 * celsius ** 2)
    const next = celsius - (platinumOhm(celsius, 1) - ratio) / slope
    if (Math.abs(next - celsius) < 1e-12) return next
    celsius = next
  }
  return celsius
}

const COLDEST_RATIO = platinumOhm(PLATINUM_LOW_CELSIUS, 1)
const HOTTEST_RATIO = platinumOhm(PLATINUM_HIGH_CELSIUS, 1)

/** Tolerance of a class A or B thermometer at a temperature, ± °C (IEC 60751:2008 table 3). */
export function platinumTolerance(toleranceClass: 'A' | 'B', celsius: number): number {
  return toleranceClass === 'A' ? 0.15 + 0.002 * Math.abs(celsius) : 0.3 + 0.005 * Math.abs(celsius)
}
