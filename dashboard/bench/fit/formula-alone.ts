import type { Recipe } from '../../../calibration/index.ts'

const FORMULAS: readonly Recipe['kind'][] = [
  'light-counts',
  'digital-temperature',
  'thermistor',
  'platinum',
  'cup-anemometer',
]

/** Whether a recipe rests on a published formula, or the maker's figures, with no reference measured by the class. */
export function isFormulaAlone(recipe: Recipe): boolean {
  if (!FORMULAS.includes(recipe.kind)) return false
  const isMeasured = (part: unknown) =>
    Array.isArray(part) ? part.length > 0 : typeof part === 'object' && part !== null && 'reference' in part
  const isComparedLight = recipe.kind === 'light-counts' && (recipe.factor ?? recipe.darkLux) !== undefined
  return !isComparedLight && !Object.values(recipe).some(isMeasured)
}
