import type { SpeciesMeasure } from '../../../hub/contract/species.ts'

/** How each measure is called on the page, and an example of what is typed for it. */
export const measureWords: Readonly<Record<SpeciesMeasure, { label: string; typed: string }>> = {
  'cover-percent': { label: 'percentage cover', typed: '35, or + for a trace' },
  'grid-hits': { label: 'squares or points hit in the frame', typed: '7/25' },
  touches: { label: 'marks touched', typed: '9/13' },
  presence: { label: 'present or not', typed: '1 or 0' },
  count: { label: 'number of individuals', typed: '14' },
  'braun-blanquet': { label: 'cover-abundance, Braun-Blanquet classes', typed: 'r + 1 2a 2b 3 4 5' },
  domin: { label: 'cover-abundance, Domin classes', typed: '+ 1 … 10' },
}

export const measureNames = Object.keys(measureWords) as SpeciesMeasure[]

/** The layouts a sheet may have, as the hub names them. */
export const layoutWords: Readonly<Record<string, string>> = {
  'quadrats-across': 'species down, quadrats across (as on the paper sheet)',
  'quadrats-down': 'quadrats down, species across',
  long: 'a list: quadrat, species, value',
  'marks-down': 'a list of marks on the tape, each with what touches it',
}
