import { type Refusal, refuse } from '../refusal.ts'
import { KELVIN_AT_ZERO_CELSIUS } from './nernst.ts'

export interface SteinhartHart {
  a: number
  b: number
  c: number
}

/**
 * Three resistances and temperatures to the coefficients of 1/T = a + b·ln R + c·(ln R)³, exactly.
 * @param points  three, ohm above 0, above −273.15 °C, all different; resistance falls as temperature rises
 * @see Steinhart & Hart 1968, Deep-Sea Research 15(4), 497–503
 */
export function fitSteinhartHart(
  points: readonly { ohm: number; celsius: number }[],
): SteinhartHart | Refusal {
  if (points.length !== 3)
    return refuse('E_POINTS_FEW', `The equation needs exactly three points; ${points.length} given.`)
  const bad = points.find((point) => !(point.ohm > 0) || !(point.celsius > -KELVIN_AT_ZERO_CELSIUS))
  if (bad !== undefined)
    return refuse('E_SETTING', `${bad.ohm} Ω at ${bad.celsius} °C cannot be; resistance is above 0 Ω.`)
  const rising = [...points].sort((one, other) => one.celsius - other.celsius)
  const [cold, middle, hot] = [rising[0]!, rising[1]!, rising[2]!]
  if (cold.celsius === middle.celsius || middle.celsius === hot.celsius) {
    return refuse(
      'E_SAME_REFERENCE',
      'Two of the three points are at one temperature. Use three different ones.',
    )
  }
  if (!(cold.ohm > middle.ohm && middle.ohm > hot.ohm)) {
    return refuse(
      'E_SAME_SIGNAL',
      'The resistance must fall as it gets warmer; two of the points may be swapped.',
    )
  }
  const [l1, l2, l3] = [Math.log(cold.ohm), Math.log(middle.ohm), Math.log(hot.ohm)]
  const [y1, y2, y3] = [
    inverseKelvin(cold.celsius),
    inverseKelvin(middle.celsius),
    inverseKelvin(hot.celsius),
  ]
  const g2 = (y2 - y1) / (l2 - l1)
  const g3 = (y3 - y1) / (l3 - l1)
  const c = (g3 - g2) / (l3 - l2) / (l1 + l2 + l3)
  const b = g2 - c * (l1 * l1 + l1 * l2 + l2 * l2)
  return { a: y1 - l1 * (b + c * l1 * l1), b, c }
}

/** Resistance, Ω, above 0, to °C by the Steinhart–Hart equation. */
export function steinhartHartCelsius(ohm: number, { a, b, c }: SteinhartHart): number {
  const l = Math.log(ohm)
  return 1 / (a + l * (b + c * l * l)) - KELVIN_AT_ZERO_CELSIUS
}

/** °C to resistance, Ω, by Newton's method on ln R. */
export function steinhartHartOhm(celsius: number, { a, b, c }: SteinhartHart): number {
  const wanted = inverseKelvin(celsius)
  let l = (wanted - a) / b
  for (let step = 0; step < 60; step++) {
    const next = l - (a + l * (b + c * l * l) - wanted) / (b + 3 * c * l * l)
    if (Math.abs(next - l) < 1e-14 * Math.abs(next)) return Math.exp(next)
    l = next
  }
  return Math.exp(l)
}

/** Resistance at 25 °C and the maker's beta. */
export interface Beta {
  ohmAt25: number
  betaKelvin: number
}

/**
 * Resistance to °C by the beta equation 1/T = 1/298.15 + ln(R/R₂₅)/β; good near 25 °C, degrees off far away.
 * @see IEC 60539-1, B-value of a thermistor
 */
export function betaCelsius(ohm: number, { ohmAt25, betaKelvin }: Beta): number {
  return 1 / (inverseKelvin(25) + Math.log(ohm / ohmAt25) / betaKelvin) - KELVIN_AT_ZERO_CELSIUS
}

/** °C to resistance by the beta equation. */
export function betaOhm(celsius: number, { ohmAt25, betaKelvin }: Beta): number {
  return ohmAt25 * Math.exp(betaKelvin * (inverseKelvin(celsius) - inverseKelvin(25)))
}

/** 1/T, T in kelvin. */
export function inverseKelvin(celsius: number): number {
  return 1 / (celsius + KELVIN_AT_ZERO_CELSIUS)
}
