import type { BudgetLine, Fitted, Remark } from '../fitted.ts'
import { EXTRAPOLATED, makeFitted, NO_REMARKS } from '../make-fitted.ts'
import type { ThermistorRecipe } from '../recipe.ts'
import { isRefusal, type Refusal, refuse } from '../refusal.ts'
import { fromStep } from '../uncertainty/rectangular.ts'
import { KELVIN_AT_ZERO_CELSIUS } from './nernst.ts'
import {
  betaCelsius,
  betaOhm,
  fitSteinhartHart,
  inverseKelvin,
  steinhartHartCelsius,
  steinhartHartOhm,
} from './thermistor-law.ts'

const OPEN: readonly Remark[] = Object.freeze(['sensor-open'] as const)
const SHORTED: readonly Remark[] = Object.freeze(['sensor-shorted'] as const)

interface Law {
  celsiusAt(ohm: number): number
  ohmAt(celsius: number): number
  facts: Record<string, number>
  /** °C per °C of common error in the reference temperatures, root sum of squares over the points */
  sensitivityAt(ohm: number): number
}

/**
 * Resistance of a thermistor, Ω, or the counts of its divider, to °C.
 * @param recipe  three points (Steinhart–Hart, exact in them) or R₂₅ and beta
 * @returns a divider at either rail gives the rail's value with remark `sensor-open` or `sensor-shorted`
 * @see Steinhart & Hart 1968, Deep-Sea Research 15(4), 497–503; IEC 60539-1 for beta
 */
export function fitThermistor(recipe: ThermistorRecipe): Fitted | Refusal {
  const law = recipe.points === undefined ? betaLaw(recipe) : threePointLaw(recipe.points)
  if (isRefusal(law)) return law
  const { divider } = recipe
  if (divider !== undefined && !(divider.seriesOhm > 0 && divider.fullScaleCounts > 1)) {
    return refuse(
      'E_SETTING',
      'The divider needs a series resistor above 0 Ω and a full scale above 1 count.',
    )
  }
  const offset = recipe.offsetCelsius ?? 0
  const ohmAt = (signal: number) => (divider === undefined ? signal : dividerOhm(signal, divider))
  const celsiusOf = (signal: number) => law.celsiusAt(ohmAt(signal)) + offset
  const range = rangeOf(recipe, law)
  const budget = (signal: number) => budgetAt(recipe, law, signal, ohmAt, celsiusOf)
  return makeFitted({
    kind: 'thermistor',
    unit: 'Cel',
    signalUnits: [divider === undefined ? 'Ohm' : 'count'],
    verdict: 'pass',
    advice:
      recipe.referenceStandardUncertaintyCelsius === undefined
        ? [
            {
              code: 'uncertainty-unknown',
              text: 'State how good the reference thermometer was, or check against one.',
            },
          ]
        : [],
    facts: { ...law.facts, offsetCelsius: offset },
    signalRange: range === null ? null : signalSpan(range, divider),
    residuals: [],
    evaluate(signal) {
      const rail = railOf(signal, divider)
      if (rail !== null) {
        const value = celsiusOf(rail.signal)
        return {
          value,
          standardUncertainty: null,
          degreesOfFreedom: Number.POSITIVE_INFINITY,
          remarks: rail.remarks,
        }
      }
      const ohm = ohmAt(signal)
      if (!(ohm > 0))
        return refuse('E_SIGNAL_RANGE', `${signal} gives ${ohm} Ω; resistance is above 0. Check the wiring.`)
      const known = recipe.referenceStandardUncertaintyCelsius !== undefined
      const outside = range !== null && (ohm < range.low || ohm > range.high)
      return {
        value: law.celsiusAt(ohm) + offset,
        standardUncertainty: known
          ? Math.hypot(...budget(signal).map((line) => line.standardUncertainty))
          : null,
        degreesOfFreedom: Number.POSITIVE_INFINITY,
        remarks: outside ? EXTRAPOLATED : NO_REMARKS,
      }
    },
    budget,
    invert(celsius) {
      const ohm = law.ohmAt(celsius - offset)
      return divider === undefined ? ohm : (divider.fullScaleCounts * ohm) / (ohm + divider.seriesOhm)
    },
  })
}

function threePointLaw(points: readonly { ohm: number; celsius: number }[]): Law | Refusal {
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

function betaLaw(recipe: ThermistorRecipe): Law | Refusal {
  const { beta } = recipe
  if (beta === undefined)
    return refuse('E_RECIPE', 'Give three points of resistance and temperature, or R25 and beta.')
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

type Divider = NonNullable<ThermistorRecipe['divider']>

function dividerOhm(counts: number, { seriesOhm, fullScaleCounts }: Divider): number {
  return (seriesOhm * counts) / (fullScaleCounts - counts)
}

/** At a rail the resistance is 0 or endless: half a count inside it is the hottest or coldest that can be said. */
function railOf(
  signal: number,
  divider: Divider | undefined,
): { signal: number; remarks: readonly Remark[] } | null {
  if (divider === undefined) return null
  if (signal <= 0) return { signal: 0.5, remarks: SHORTED }
  if (signal >= divider.fullScaleCounts) return { signal: divider.fullScaleCounts - 0.5, remarks: OPEN }
  return null
}

function rangeOf(recipe: ThermistorRecipe, _law: Law): { low: number; high: number } | null {
  if (recipe.points === undefined) return null
  const ohms = recipe.points.map((point) => point.ohm)
  return { low: Math.min(...ohms), high: Math.max(...ohms) }
}

function signalSpan(range: { low: number; high: number }, divider: Divider | undefined) {
  if (divider === undefined) return range
  const counts = (ohm: number) => (divider.fullScaleCounts * ohm) / (ohm + divider.seriesOhm)
  return { low: counts(range.low), high: counts(range.high) }
}

function budgetAt(
  recipe: ThermistorRecipe,
  law: Law,
  signal: number,
  ohmAt: (signal: number) => number,
  celsiusOf: (signal: number) => number,
): BudgetLine[] {
  const lines: BudgetLine[] = []
  const add = (name: BudgetLine['name'], standardUncertainty: number) => {
    if (standardUncertainty > 0)
      lines.push({ name, standardUncertainty, degreesOfFreedom: Number.POSITIVE_INFINITY })
  }
  const ohm = ohmAt(signal)
  if (!(ohm > 0) || !Number.isFinite(ohm)) return lines
  add('reference', (recipe.referenceStandardUncertaintyCelsius ?? 0) * law.sensitivityAt(ohm))
  const step = recipe.signalResolution ?? (recipe.divider === undefined ? 0 : 1)
  add('resolution', fromStep((celsiusOf(signal + step / 4) - celsiusOf(signal - step / 4)) * 2))
  add('drift', recipe.driftStandardUncertainty ?? 0)
  return lines
}
