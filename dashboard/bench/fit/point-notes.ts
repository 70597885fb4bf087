import type { Captured, Procedure, Recipe } from '../../../calibration/index.ts'
import { signalWithUnit } from '../hold/signal-digits.ts'

const MOST = 1000

/** What the recipe has no place for goes into the note, so that it stays on record. */
export function noteOf(
  typed: string,
  procedure: Procedure,
  points: readonly Captured[],
  recipe: Recipe,
  signalUnit: string,
): string {
  const parts = [typed.trim()]
  if (recipe.kind !== 'ph-electrode') {
    const forced = points.flatMap(({ isForced }, index) => (isForced ? [index + 1] : []))
    if (forced.length > 0)
      parts.push(`Kept while still moving: ${forced.length === 1 ? 'point' : 'points'} ${forced.join(', ')}.`)
  }
  if (recipe.kind === 'light-counts' && points.length > 0) {
    const pairs = points.flatMap(({ signal, fields, role }) => {
      const reference = procedure.reference(fields)
      return reference === null
        ? []
        : [
            `${signalWithUnit(signal, signalUnit)} at ${reference.value} lx${role === 'check' ? ' (check)' : ''}`,
          ]
    })
    parts.push(`Pairs: ${pairs.join('; ')}.`)
  }
  const text = parts.filter((part) => part !== '').join(' ')
  return text.length <= MOST ? text : `${text.slice(0, MOST - 1)}…`
}
