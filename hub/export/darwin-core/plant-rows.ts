import type { SpeciesMeasure, SpeciesRecord, SpeciesTable } from '../../contract/species.ts'
import type { LabelMatches } from '../../study/species/match-labels.ts'
import type { MeasurementRow, OccurrenceRow } from './archive-terms.ts'
import { type EventBook, identifier } from './event-book.ts'
import { rankSaid } from './taxon-rank.ts'

/** What the quantity of a plant is, in the words a portal knows it by. */
const QUANTITY_TYPES: Readonly<Record<SpeciesMeasure, string>> = {
  'cover-percent': 'percentage cover',
  'grid-hits': 'percentage cover (grid hits)',
  presence: '',
  touches: 'percentage of marks touched',
  count: 'individuals',
  'braun-blanquet': 'Braun-Blanquet scale',
  domin: 'Domin scale',
}

/**
 * Plants of each quadrat that joined, present and absent alike; what was not recorded is neither. Bare ground and litter
 * are measurements of the event. Identifiers depend on survey, quadrat and name alone, so they stay.
 */
export function plantRows(
  survey: string,
  table: SpeciesTable,
  labels: LabelMatches,
  date: string,
  book: EventBook,
): { occurrences: OccurrenceRow[]; measurements: MeasurementRow[]; leftOut: string[] } {
  const quadratOf = new Map(labels.matched.map(({ typed, survey: label }) => [typed, label]))
  const eventOf = (quadrat: string) =>
    book.atQuadrat(quadrat, date, `plants: ${QUANTITY_TYPES[table.measure] || 'presence'}`)
  const joined = <T>(
    records: readonly SpeciesRecord[],
    of: (record: SpeciesRecord, quadrat: string) => T,
  ): T[] =>
    records.flatMap((record) => {
      const quadrat = quadratOf.get(record.quadrat)
      return quadrat === undefined ? [] : [of(record, quadrat)]
    })
  const without = table.records.filter(({ quadrat }) => !quadratOf.has(quadrat)).length
  return {
    occurrences: joined(table.records, (record, quadrat) => ({
      eventID: eventOf(quadrat),
      occurrenceID: identifier(survey, quadrat, 'species', record.taxon),
      basisOfRecord: 'HumanObservation',
      occurrenceStatus: record.present ? 'present' : 'absent',
      scientificName: record.taxon,
      taxonRank: rankSaid(record.taxon),
      ...quantityOf(record),
      occurrenceRemarks: `written ${record.asWritten === '' ? 'as a blank' : `“${record.asWritten}”`}`,
    })),
    measurements: joined(table.ground, (record, quadrat) => ({
      eventID: eventOf(quadrat),
      measurementID: identifier(survey, quadrat, 'ground', record.taxon),
      measurementType: `cover of ${record.taxon}`,
      measurementValue: record.value,
      measurementUnit: record.measure === 'presence' || record.measure === 'count' ? '' : '%',
    })),
    leftOut: [
      ...(without === 0 ? [] : [`${without} records of plants whose quadrat is not one of the survey.`]),
      ...(table.notRecorded.length === 0
        ? []
        : [`${table.notRecorded.length} cells that were not recorded: neither present nor absent.`]),
      'Names are as the class wrote them; no list of names was consulted.',
    ],
  }
}

function quantityOf({ measure, value, present, asWritten }: SpeciesRecord): Partial<OccurrenceRow> {
  if (measure === 'presence') return {}
  const organismQuantityType = QUANTITY_TYPES[measure]
  if (measure === 'count') return { individualCount: value, organismQuantity: value, organismQuantityType }
  const isClass = measure === 'braun-blanquet' || measure === 'domin'
  return { organismQuantity: isClass && present ? asWritten : value, organismQuantityType }
}
