import type { BudgetLine, Fitted } from '../fitted.ts'
import { makeFitted, NO_REMARKS } from '../make-fitted.ts'
import type { PlatinumRecipe } from '../recipe.ts'
import { type Refusal, refuse } from '../refusal.ts'
import { fromHalfWidth, fromStep } from '../uncertainty/rectangular.ts'
import { rootSumOfSquares, statedTerms } from '../uncertainty/stated-terms.ts'
import { platinumCelsius, platinumOhm, platinumTolerance } from './platinum-law.ts'

/**
 * Resistance of a platinum thermometer, Ω, to °C.
 * @returns a refusal outside −200…850 °C; uncertainty from the tolerance class, null when it is not stated
 * @see IEC 60751:2008
 */
export function fitPlatinum(recipe: PlatinumRecipe): Fitted | Refusal {
  const ohmAtZero = recipe.ohmAtZero ?? 100
  if (!(ohmAtZero > 0))
    return refuse('E_SETTING', `The resistance at 0 °C is ${ohmAtZero} Ω; it is mostly 100 or 1000.`)
  const offset = recipe.offsetCelsius ?? 0
  const { toleranceClass } = recipe
  const budgetAt = (celsius: number): BudgetLine[] => {
    const ohmPerDegree = platinumOhm(celsius + 0.5, ohmAtZero) - platinumOhm(celsius - 0.5, ohmAtZero)
    return statedTerms({
      reference: toleranceClass && fromHalfWidth(platinumTolerance(toleranceClass, celsius)),
      resolution: fromStep((recipe.signalResolution ?? 0) / ohmPerDegree),
      drift: recipe.driftStandardUncertainty,
    })
  }
  return makeFitted({
    kind: 'platinum',
    unit: 'Cel',
    signalUnits: ['Ohm'],
    verdict: 'pass',
    advice:
      toleranceClass === undefined
        ? [
            {
              code: 'uncertainty-unknown',
              text: 'State the tolerance class (A or B) printed on the thermometer.',
            },
          ]
        : [],
    facts: { ohmAtZero, offsetCelsius: offset, toleranceClass: toleranceClass ?? null },
    signalRange: null,
    residuals: [],
    evaluate(ohm) {
      const celsius = platinumCelsius(ohm, ohmAtZero)
      if (celsius === null) {
        return refuse(
          'E_SIGNAL_RANGE',
          `${ohm} Ω is outside −200…850 °C for this thermometer; check for a broken or shorted wire.`,
        )
      }
      return {
        value: celsius + offset,
        standardUncertainty: toleranceClass === undefined ? null : rootSumOfSquares(budgetAt(celsius)),
        degreesOfFreedom: Number.POSITIVE_INFINITY,
        remarks: NO_REMARKS,
      }
    },
    budget(ohm) {
      const celsius = platinumCelsius(ohm, ohmAtZero)
      return celsius === null ? [] : budgetAt(celsius)
    },
    invert: (celsius) => platinumOhm(celsius - offset, ohmAtZero),
  })
}
