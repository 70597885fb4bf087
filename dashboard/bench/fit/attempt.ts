import {
  type Captured,
  type Fields,
  type Fitted,
  fitCalibration,
  isRefusal,
  type Procedure,
  type Recipe,
} from '../../../calibration/index.ts'
import { countText } from '../../format.ts'

/** What the points make so far: a fitted curve, or why there is none yet. */
export type Attempt =
  | { kind: 'fitted'; recipe: Recipe; fitted: Fitted }
  /** `isFault`: the points themselves are wrong, not just too few */
  | { kind: 'none'; why: string; isFault: boolean }

export function attemptOf(
  procedure: Procedure,
  points: readonly Captured[],
  settings: Fields,
  signalUnit: string,
): Attempt {
  const missing = whatIsMissing(procedure, points, settings)
  if (missing !== null) return { kind: 'none', why: missing, isFault: false }
  const recipe = withUnit(procedure.recipe(points, settings), procedure, signalUnit)
  const fitted = fitCalibration(recipe)
  return isRefusal(fitted)
    ? { kind: 'none', why: fitted.message, isFault: true }
    : { kind: 'fitted', recipe, fitted }
}

/** A curve through points in a channel’s own unit says which unit that was, so that it is never read in another. */
function withUnit(recipe: Recipe, procedure: Procedure, signalUnit: string): Recipe {
  const isOpen =
    recipe.kind === 'wetness-span' ||
    recipe.kind === 'water-content-fit' ||
    recipe.kind === 'light-power' ||
    recipe.kind === 'light-span' ||
    recipe.kind === 'line'
  const isKnown =
    signalUnit !== '' && (procedure.signalUnits.length === 0 || procedure.signalUnits.includes(signalUnit))
  return isOpen && isKnown && recipe.signalUnit === undefined ? { ...recipe, signalUnit } : recipe
}

/** What is still to be done before anything can be fitted, in words. */
export function whatIsMissing(
  procedure: Procedure,
  points: readonly Captured[],
  settings: Fields,
): string | null {
  const toType = procedure.settings
    .filter(({ name, isRequired }) => isRequired && settings[name] === undefined)
    .map(({ label }) => label.charAt(0).toLowerCase() + label.slice(1))
  if (toType.length > 0) return `Still to be typed above: ${toType.join(', ')}.`
  const fitted = points.filter(({ role }) => role === 'fit')
  const fewest = procedure.fewestPoints
  if (fitted.length < fewest)
    return fitted.length === 0
      ? `Keep the first point, and it appears here. At least ${fewest} are needed.`
      : `${countText(fitted.length, 'point')} kept; the curve needs ${fewest - fitted.length} more.`
  if (procedure.id === 'dry-wet') {
    const ends = new Set(fitted.map(({ fields }) => fields['end']))
    if (!ends.has('dry')) return 'Keep one point in air-dry soil.'
    if (!ends.has('wet')) return 'Keep one point in saturated soil.'
  }
  const open = fitted.findIndex(({ fields }) => procedure.reference(fields) === null)
  return open === -1
    ? null
    : `The reference of point ${open + 1} is not known yet. Press “Change” in its row and fill in the rest.`
}
