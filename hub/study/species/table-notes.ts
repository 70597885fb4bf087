import type { SpeciesMeasure, SpeciesRepair, SpeciesTable } from '../../contract/species.ts'
import type { ValueSettings } from './read-value.ts'

export function notSurveyedNote(quadrats: SpeciesTable['quadrats']): string[] {
  const blank = quadrats.filter(({ isSurveyed }) => !isSurveyed).map(({ label }) => label)
  return blank.length === 0
    ? []
    : [`Nothing at all was typed for ${blank.join(', ')}: not surveyed, whatever blanks mean.`]
}

export function traceNote(repairs: readonly SpeciesRepair[], { tracePercent }: ValueSettings): string[] {
  const count = repairs.filter(({ why }) => why.startsWith('a trace')).length
  return count === 0
    ? []
    : [
        `${count} ${count === 1 ? 'trace stands' : 'traces stand'} as ${tracePercent} %: present, with that stand-in.`,
      ]
}

export function classNote(measure: SpeciesMeasure): string[] {
  if (measure === 'braun-blanquet')
    return [
      'Classes stand as the mid-points of Braun-Blanquet (1964), class 2 divided after Reichelt & Wilmanns (1973). They are an order: rank them, do not average them.',
    ]
  if (measure === 'domin')
    return [
      'Classes stand as the mid-points of the Domin scale (Dahl & Hadač 1941). They are an order: rank them, do not average them.',
    ]
  return []
}
