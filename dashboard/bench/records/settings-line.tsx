import type { Recipe } from '../../../calibration/index.ts'
import { wordsOf } from '../../words-of.ts'

const LEFT_OUT = new Set(['kind', 'n', 'signalUnit', 'drySignal', 'wetSignal', 'dryScatter', 'wetScatter'])

/** What was typed once for all points. */
export function SettingsLine({ recipe }: { recipe: Recipe }) {
  const told = Object.entries(recipe).flatMap(([name, value]) => {
    if (LEFT_OUT.has(name) || Array.isArray(value) || name === 'secondPoint' || name === 'criteria') return []
    if (typeof value === 'object' && value !== null)
      return [
        `${wordsOf(name)}: ${Object.entries(value)
          .map(([part, each]) => `${wordsOf(part)} ${written(each)}`)
          .join(', ')}`,
      ]
    return [`${wordsOf(name)} ${written(value)}`]
  })
  return told.length === 0 ? null : <p class="record-settings">Settings: {told.join('; ')}.</p>
}

function written(value: unknown): string {
  return typeof value === 'number'
    ? String(Number(value.toPrecision(6))).replace('-', '\u2212')
    : String(value)
}
