import { isRefusal, type Refusal, refuse } from '../refusal.ts'
import { KELVIN_AT_ZERO_CELSIUS } from './nernst.ts'
import {
  type Beta,
  betaCelsius,
  betaOhm,
  fitSteinhartHart,
  inverseKelvin,
  steinhartHartCelsius,
  steinhartHartOhm,
} from './thermistor-law.ts'

/** One of the two laws of a thermistor, with how errors of its reference temperatures reach a reading. */
export interface ThermistorLaw {
  celsiusAt(ohm: number): number
  ohmAt(celsius: number): number
  facts: Record<string, number>
  /** °C per °C of common error in the reference temperatures, root sum of squares over the points */
  sensitivityAt(ohm: number): number
}

/** Steinhart–Hart through three points. */
export function threePointLaw(points: readonly { ohm: number; celsius: number }[]): ThermistorLaw | Refusal {
  const fit = fitSteinhartHart(points)
  if (isRefusal(fit)) return fit
  return {
    celsiusAt: (ohm) => steinhartHartCelsius(ohm, fit),
    ohmAt: (celsius) => steinhartHartOhm(celsius, fit),
    facts: { a: fit.a, b: fit.b, c: fit.c },
    sensitivityAt: (ohm) => threePointSensitivity(ohm, points, steinhartHartCelsius(ohm, fit)),
  }
}

/** 1/T is a weighted sum of the points' 1/T; each weight is 1 at its own point and 0 at the two others. */
function threePointSensitivity(
  ohm: number,
  points: readonly { ohm: number; celsius: number }[],
  celsius: number,
): number {
  const l = Math.log(ohm)
  const kelvin = celsius + KELVIN_AT_ZERO_CELSIUS
  const logs = points.map((point) => Math.log(point.ohm))
  let squares = 0
  for (const [i, own] of logs.entries()) {
    const [p, q] = logs.filter((_, k) => k !== i)
    // (l − p)(l − q)(l + p + q) has no square term, as 1, l, l³ asks
    const weight = ((l - p!) * (l - q!) * (l + p! + q!)) / ((own - p!) * (own - q!) * (own + p! + q!))
    squares += (weight * (kelvin * inverseKelvin(points[i]!.celsius)) ** 2) ** 2
  }
  return Math.sqrt(squares)
}

/** The maker's beta; an error of the reference is common to all temperatures. */
export function betaLaw(beta: Beta | undefined): ThermistorLaw | Refusal {
  if (beta === undefined) {
    return refuse('E_RECIPE', 'Give three points of resistance and temperature, or R25 and beta.')
  }
  if (!(beta.ohmAt25 > 0 && beta.betaKelvin > 0)) {
    return refuse('E_SETTING', `R25 is ${beta.ohmAt25} Ω and beta ${beta.betaKelvin} K; both are above 0.`)
  }
  return {
    celsiusAt: (ohm) => betaCelsius(ohm, beta),
    ohmAt: (celsius) => betaOhm(celsius, beta),
    facts: { ohmAt25: beta.ohmAt25, betaKelvin: beta.betaKelvin },
    sensitivityAt: () => 1,
  }
}
