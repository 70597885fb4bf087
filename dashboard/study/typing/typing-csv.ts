import type { SpeciesMeasure } from '../../../hub/contract/species.ts'
import { csvLine } from '../species/csv-line.ts'
import type { TypingGrid } from './typing-grid.ts'

/** What stands in the corner of the sheet: it tells the reader what was measured. */
const corners: Readonly<Record<SpeciesMeasure, string>> = {
  'cover-percent': 'Species (cover %)',
  'grid-hits': 'Species (grid hits)',
  touches: 'Species (touches)',
  presence: 'Species (present or not)',
  count: 'Species (count)',
  'braun-blanquet': 'Species (Braun-Blanquet)',
  domin: 'Species (Domin)',
}

/**
 * What was typed, as the sheet it was typed from: species down, quadrats across, every cell unchanged. A row without a
 * name is left out, see namelessRows.
 */
export function typedAsCsv({ measure, rows }: TypingGrid, quadrats: readonly string[]): string {
  return [
    csvLine([corners[measure], ...quadrats]),
    ...rows
      .filter(({ name }) => name.trim() !== '')
      .map(({ name, cells }) => csvLine([name.trim(), ...quadrats.map((label) => cells[label] ?? '')])),
  ].join('')
}
