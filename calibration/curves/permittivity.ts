import type { BudgetLine, Fitted } from '../fitted.ts'
import { EXTRAPOLATED, IMPOSSIBLE, makeFitted, NO_REMARKS } from '../make-fitted.ts'
import type { PermittivityRecipe } from '../recipe.ts'
import { type Refusal, refuse } from '../refusal.ts'
import { fromStep } from '../uncertainty/rectangular.ts'
import { rootSumOfSquares, statedTerms } from '../uncertainty/stated-terms.ts'
import { alikeUnits } from '../units.ts'
import {
  solveToppPermittivity,
  TOPP_HIGH,
  TOPP_LOW,
  TOPP_STANDARD_ERROR,
  toppSlope,
  toppWaterContent,
} from './topp.ts'

/**
 * Relative permittivity, or a signal straight in it, to volumetric water content of mineral soil, m³/m³.
 * @returns a refusal below permittivity 1 (a vacuum); remarks `extrapolated` outside 3–40, `impossible` below 0 or
 *   above the stated pore space
 * @see Topp, Davis & Annan 1980, Water Resources Research 16(3), 574–582
 */
export function fitPermittivity(recipe: PermittivityRecipe): Fitted | Refusal {
  const { slope, intercept } = recipe.fromSignal ?? { slope: 1, intercept: 0 }
  if (slope === 0) return refuse('E_SLOPE_ZERO', 'The line from signal to permittivity has slope 0.')
  const pores = recipe.porosity ?? 1
  if (!(pores > 0 && pores <= 1))
    return refuse('E_SETTING', `The pore space is ${pores}; it lies between 0 and 1.`)
  const ends = [(TOPP_LOW - intercept) / slope, (TOPP_HIGH - intercept) / slope]
  const budget = (signal: number): BudgetLine[] =>
    statedTerms({
      reference: TOPP_STANDARD_ERROR,
      resolution: fromStep((recipe.signalResolution ?? 0) * toppSlope(slope * signal + intercept) * slope),
      drift: recipe.driftStandardUncertainty,
    })
  return makeFitted({
    kind: 'permittivity',
    unit: 'm3/m3',
    signalUnits: recipe.signalUnit === undefined ? [] : alikeUnits(recipe.signalUnit),
    verdict: 'pass',
    advice: [
      {
        code: 'mineral-soil-only',
        text: 'The polynomial holds for mineral soil. In peat or leaf mould dry samples of the own soil instead.',
      },
    ],
    facts: { slope, intercept, porosity: recipe.porosity ?? null },
    signalRange: { low: Math.min(...ends), high: Math.max(...ends) },
    residuals: [],
    evaluate(signal) {
      const permittivity = slope * signal + intercept
      if (permittivity < 1) {
        return refuse(
          'E_SIGNAL_RANGE',
          `The permittivity is ${permittivity.toFixed(2)}; nothing is below 1. Check the line.`,
        )
      }
      const theta = toppWaterContent(permittivity)
      return {
        value: theta,
        standardUncertainty: rootSumOfSquares(budget(signal)),
        degreesOfFreedom: Number.POSITIVE_INFINITY,
        remarks:
          theta < 0 || theta > pores
            ? IMPOSSIBLE
            : permittivity < TOPP_LOW || permittivity > TOPP_HIGH
              ? EXTRAPOLATED
              : NO_REMARKS,
      }
    },
    budget,
    invert: (theta) => (solveToppPermittivity(theta) - intercept) / slope,
  })
}
