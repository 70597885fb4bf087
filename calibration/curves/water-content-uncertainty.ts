import type { Polynomial } from '../fit/polynomial.ts'
import type { BudgetLine } from '../fitted.ts'
import type { WaterContentFitRecipe } from '../recipe.ts'
import { combine } from '../uncertainty/combine.ts'
import { fromStep } from '../uncertainty/rectangular.ts'
import { statedTerms } from '../uncertainty/stated-terms.ts'

type Terms = Pick<
  WaterContentFitRecipe,
  'sampleStandardUncertainty' | 'signalResolution' | 'driftStandardUncertainty'
>

/**
 * Standard uncertainty of a water content read off the curve, m³/m³.
 * Stated sample uncertainties are carried through the leverage of the samples; otherwise the scatter about the curve
 * stands for the samples and for the new place alike: s²(1 + leverage) on n − p degrees of freedom.
 * @see JCGM 100:2008 H.3; Draper & Smith 1998, ch. 3, prediction of a new observation
 */
export function waterContentUncertainty(terms: Terms, curve: Polynomial, signal: number) {
  const s = curve.residualStandardDeviation
  const leverage = curve.leverageAt(signal)
  const own: BudgetLine[] =
    terms.sampleStandardUncertainty !== undefined || s === null
      ? statedTerms({ reference: (terms.sampleStandardUncertainty ?? 0) * Math.sqrt(leverage) })
      : [
          {
            name: 'fit',
            standardUncertainty: s * Math.sqrt(1 + leverage),
            degreesOfFreedom: curve.degreesOfFreedom,
          },
        ]
  return combine([...own, ...otherTerms(terms, curve, signal)])
}

/** The same, source by source. */
export function waterContentBudget(terms: Terms, curve: Polynomial, signal: number): BudgetLine[] {
  const s = curve.residualStandardDeviation
  const root = Math.sqrt(curve.leverageAt(signal))
  const others = otherTerms(terms, curve, signal)
  if (terms.sampleStandardUncertainty !== undefined || s === null) {
    return [...statedTerms({ reference: (terms.sampleStandardUncertainty ?? 0) * root }), ...others]
  }
  return [
    { name: 'fit', standardUncertainty: s * root, degreesOfFreedom: curve.degreesOfFreedom },
    { name: 'repeatability', standardUncertainty: s, degreesOfFreedom: curve.degreesOfFreedom },
    ...others,
  ]
}

function otherTerms(terms: Terms, curve: Polynomial, signal: number): BudgetLine[] {
  const step = terms.signalResolution
  return statedTerms({
    resolution: step === undefined ? undefined : fromStep(curve.at(signal + step) - curve.at(signal)),
    drift: terms.driftStandardUncertainty,
  })
}
