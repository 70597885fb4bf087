import type { BudgetLine, Fitted, Remark } from '../fitted.ts'
import { EXTRAPOLATED, makeFitted, NO_REMARKS } from '../make-fitted.ts'
import type { ThermistorRecipe } from '../recipe.ts'
import { isRefusal, type Refusal, refuse } from '../refusal.ts'
import { fromStep } from '../uncertainty/rectangular.ts'
import { rootSumOfSquares, statedTerms } from '../uncertainty/stated-terms.ts'
import { betaLaw, type ThermistorLaw, threePointLaw } from './thermistor-curve.ts'

const OPEN: readonly Remark[] = Object.freeze(['sensor-open'] as const)
const SHORTED: readonly Remark[] = Object.freeze(['sensor-shorted'] as const)

/**
 * Resistance of a thermistor, Ω, or the counts of its divider, to °C.
 * @param recipe  three points (Steinhart–Hart, exact in them) or R₂₅ and beta
 * @returns a divider at either rail gives the rail's value with remark `sensor-open` or `sensor-shorted`
 * @see Steinhart & Hart 1968, Deep-Sea Research 15(4), 497–503; IEC 60539-1 for beta
 */
export function fitThermistor(recipe: ThermistorRecipe): Fitted | Refusal {
  const law = recipe.points === undefined ? betaLaw(recipe.beta) : threePointLaw(recipe.points)
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
  const range = rangeOf(recipe)
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
        standardUncertainty: known ? rootSumOfSquares(budget(signal)) : null,
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

function rangeOf(recipe: ThermistorRecipe): { low: number; high: number } | null {
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
  law: ThermistorLaw,
  signal: number,
  ohmAt: (signal: number) => number,
  celsiusOf: (signal: number) => number,
): BudgetLine[] {
  const ohm = ohmAt(signal)
  if (!(ohm > 0) || !Number.isFinite(ohm)) return []
  const step = recipe.signalResolution ?? (recipe.divider === undefined ? 0 : 1)
  return statedTerms({
    reference: (recipe.referenceStandardUncertaintyCelsius ?? 0) * law.sensitivityAt(ohm),
    // a quarter step to either side, doubled: near a rail a whole step would leave the converter
    resolution: fromStep((celsiusOf(signal + step / 4) - celsiusOf(signal - step / 4)) * 2),
    drift: recipe.driftStandardUncertainty,
  })
}
