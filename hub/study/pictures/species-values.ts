import type { SpeciesMeasure, SpeciesTable } from '../../contract/species.ts'
import type { LabelMatches } from '../species/match-labels.ts'

/** One taxon by the survey's quadrats. A quadrat where it was not recorded is not in the map; zero is looked for and absent. */
export interface SpeciesValues {
  name: string
  values: Map<string, number>
}

/** All taxa of a table in the order of the sheet, by the labels of the survey. */
export function speciesValues(table: SpeciesTable, labels: LabelMatches): SpeciesValues[] {
  const surveyLabel = new Map(labels.matched.map(({ survey, typed }) => [typed, survey]))
  const byTaxon = new Map(table.taxa.map(({ name }) => [name, new Map<string, number>()]))
  for (const { quadrat, taxon, value } of table.records) {
    const label = surveyLabel.get(quadrat)
    if (label !== undefined) byTaxon.get(taxon)?.set(label, value)
  }
  return [...byTaxon].map(([name, values]) => ({ name, values }))
}

/** The commonest first: in most quadrats, then with the largest sum; at most so many. */
export function commonest(species: readonly SpeciesValues[], atMost: number): SpeciesValues[] {
  const rank = ({ values }: SpeciesValues) => {
    const present = [...values.values()].filter((value) => value > 0)
    return { quadrats: present.length, sum: present.reduce((sum, value) => sum + value, 0) }
  }
  return [...species]
    .map((each) => ({ each, ...rank(each) }))
    .sort((one, other) => other.quadrats - one.quadrats || other.sum - one.sum)
    .slice(0, atMost)
    .map(({ each }) => each)
}

interface MeasureWords {
  /** on an axis */
  axis: string
  /** what is drawn at full width of a kite; null: the largest count, rounded up */
  fullValue: number | null
  /** what full width means */
  full: string
}

const CLASSES: MeasureWords = {
  axis: 'cover, mid-point of its class (%)',
  fullValue: 100,
  full: '100 % cover (mid-points of the cover classes)',
}
const MEASURES: Readonly<Record<SpeciesMeasure, MeasureWords>> = {
  'cover-percent': { axis: 'cover (%)', fullValue: 100, full: '100 % cover' },
  'grid-hits': { axis: 'grid hits (%)', fullValue: 100, full: 'every point of the grid hit (100 %)' },
  touches: { axis: 'marks touched (%)', fullValue: 100, full: 'every mark touched (100 %)' },
  presence: { axis: 'present (1) or absent (0)', fullValue: 1, full: 'present' },
  count: { axis: 'individuals', fullValue: null, full: 'individuals' },
  'braun-blanquet': CLASSES,
  domin: CLASSES,
}

export function measureWords(measure: SpeciesMeasure): MeasureWords {
  return MEASURES[measure]
}
