import type { SpeciesTable } from '../../contract/species.ts'
import { type CsvCell, csvLines } from '../csv-line.ts'
import { type Column, DARWIN_CORE, type DataTable } from './data-table.ts'

const COLUMNS: readonly Column[] = [
  { name: 'row', type: 'integer', title: 'Row', description: 'Counts from 1.' },
  { name: 'quadrat', type: 'string', title: 'Quadrat', description: 'As it was typed.' },
  {
    name: 'taxon',
    type: 'string',
    title: 'Taxon',
    description: 'As the class wrote it; other spellings of the same are repaired.',
    propertyUrl: `${DARWIN_CORE}scientificName`,
  },
  {
    name: 'kind',
    type: 'string',
    title: 'Kind',
    description: '“taxon”, or “ground” for bare ground, litter and rock.',
  },
  { name: 'measure', type: 'string', title: 'Measure', description: 'How it was measured.' },
  {
    name: 'value',
    type: 'number',
    title: 'Value',
    description: 'In per cent, or a count, or 1 and 0. Empty: not recorded.',
    propertyUrl: `${DARWIN_CORE}organismQuantity`,
  },
  { name: 'is_present', type: 'boolean', title: 'Present', description: 'Empty: not recorded.' },
  {
    name: 'as_written',
    type: 'string',
    title: 'As written',
    description: 'What stood in the cell, unchanged.',
  },
  { name: 'cell', type: 'string', title: 'Cell', description: 'Where it stood in the sheet.' },
]

export const SPECIES_HEADINGS = COLUMNS.map(({ name }) => name)

/** Taxa, then ground, then what was not recorded. */
export function speciesRows(table: SpeciesTable): CsvCell[][] {
  const recorded = [
    ...table.records.map((record) => ({ ...record, kind: 'taxon' })),
    ...table.ground.map((record) => ({ ...record, kind: 'ground' })),
  ].map(({ quadrat, taxon, kind, measure, value, present, asWritten, cell }) => [
    ...[quadrat, taxon, kind, measure, value, present, asWritten, cell],
  ])
  const blank = table.notRecorded.map(({ quadrat, taxon, cell }) => [
    ...[quadrat, taxon, 'taxon', table.measure, null, null, '', cell],
  ])
  return [...recorded, ...blank].map((row, place) => [place + 1, ...row])
}

/** The species sheet as it was read: every cell, those not recorded too. */
export function speciesTable(table: SpeciesTable): DataTable {
  return {
    name: 'species',
    title: 'Species as the class recorded them',
    description: table.reading,
    columns: COLUMNS,
    primaryKey: ['row'],
    lines: csvLines(SPECIES_HEADINGS, speciesRows(table)),
  }
}
