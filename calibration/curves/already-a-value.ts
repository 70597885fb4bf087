import type { Fitted, Remark } from '../fitted.ts'
import { makeFitted, NO_REMARKS } from '../make-fitted.ts'
import type { AlreadyAValueRecipe } from '../recipe.ts'
import { fromStep } from '../uncertainty/rectangular.ts'
import { rootSumOfSquares, statedTerms } from '../uncertainty/stated-terms.ts'
import { alikeUnits } from '../units.ts'
import { FAULT_CELSIUS } from './temperature-word.ts'

const FAULT: readonly Remark[] = Object.freeze(['fault-code'] as const)

/**
 * The board sends the value itself; a known offset is added.
 * @returns uncertainty null unless one is stated: a number on a wire says nothing about how good it is
 */
export function fitAlreadyAValue(recipe: AlreadyAValueRecipe): Fitted {
  const offset = recipe.offset ?? 0
  const lines = statedTerms({
    reference: recipe.standardUncertainty,
    resolution: fromStep(recipe.signalResolution ?? 0),
    drift: recipe.driftStandardUncertainty,
  })
  const known = recipe.standardUncertainty !== undefined
  const standardUncertainty = known ? rootSumOfSquares(lines) : null
  return makeFitted({
    kind: 'already-a-value',
    unit: recipe.unit,
    signalUnits: alikeUnits(recipe.unit),
    verdict: 'pass',
    advice: known
      ? []
      : [
          {
            code: 'uncertainty-unknown',
            text: 'The board sends the value itself and its uncertainty is not stated. Check it against a known reference.',
          },
        ],
    facts: { offset, standardUncertainty: recipe.standardUncertainty ?? null },
    signalRange: null,
    residuals: [],
    evaluate: (signal) => ({
      value: signal + offset,
      standardUncertainty,
      degreesOfFreedom: Number.POSITIVE_INFINITY,
      remarks: signal === FAULT_CELSIUS && recipe.unit === 'Cel' ? FAULT : NO_REMARKS,
    }),
    budget: () => lines,
    invert: (value) => value - offset,
  })
}
