import type { SpeciesQuestion, SpeciesTable } from '../../contract/species.ts'
import { explainJoin } from './explain-join.ts'
import { factorColumns } from './factor-columns.ts'
import { measureFacts } from './find-measure.ts'
import { type LabelAnswers, type LabelMatches, matchLabels } from './match-labels.ts'
import type { QuadratReadings } from './read-readings.ts'

/** null: not recorded */
export type JoinedCell = string | number | null

export interface JoinedTable {
  headings: string[]
  rows: JoinedCell[][]
}

export interface Joined {
  /** one row for each matched quadrat: its factors, then each taxon */
  wide: JoinedTable
  /** one row for each matched quadrat and taxon */
  long: JoinedTable
  /** every label and row that is in neither, with the reason */
  unmatched: JoinedTable
  labels: LabelMatches
  questions: SpeciesQuestion[]
  /** every row accounted for, a sentence each */
  explanation: string[]
}

/**
 * Readings, one value for each quadrat and quantity, beside the species of the same quadrats. Quadrats come in the order
 * of the readings, taxa in the order of the sheet. Nothing is dropped: what has no partner is in `unmatched`.
 */
export function joinSpecies(
  readings: QuadratReadings,
  species: SpeciesTable,
  answers: LabelAnswers = {},
): Joined {
  const typed = species.quadrats.map(({ label }) => label)
  const labels = matchLabels(readings.quadrats, typed, answers)
  const factors = factorColumns(readings.values)
  const records = new Map(
    species.records.map((record) => [JSON.stringify([record.quadrat, record.taxon]), record]),
  )
  const recordOf = (quadrat: string, taxon: string) => records.get(JSON.stringify([quadrat, taxon]))
  const taxa = species.taxa.map(({ name }) => name)
  const taken = new Set(['quadrat', ...factors.map(({ heading }) => heading)])
  const blanks = species.blanks === null ? 'none' : species.blanks
  const wide: JoinedTable = {
    headings: [
      ...taken,
      ...taxa.map((name) => (taken.has(name) ? `${name} (species)` : name)),
      'species_measure',
      'blanks_mean',
    ],
    rows: labels.matched.map(({ survey, typed: label }) => [
      survey,
      ...factors.map((factor) => factor.of(survey)),
      ...taxa.map((taxon) => recordOf(label, taxon)?.value ?? null),
      species.measure,
      blanks,
    ]),
  }
  const long: JoinedTable = {
    headings: [
      'quadrat',
      'taxon',
      'measure',
      'value',
      'unit',
      'present',
      'as_written',
      'cell',
      ...factors.map(({ heading }) => heading),
      'blanks_mean',
    ],
    rows: labels.matched.flatMap(({ survey, typed: label }) =>
      taxa.map((taxon) => {
        const record = recordOf(label, taxon)
        const cells = record
          ? [
              record.value,
              measureFacts[species.measure].unit,
              record.present ? 1 : 0,
              record.asWritten,
              record.cell,
            ]
          : [null, null, null, null, null]
        return [
          survey,
          taxon,
          species.measure,
          ...cells,
          ...factors.map((factor) => factor.of(survey)),
          blanks,
        ]
      }),
    ),
  }
  return {
    wide,
    long,
    unmatched: unmatchedTable(labels, species),
    labels,
    questions: labels.questions,
    explanation: explainJoin(readings.quadrats.length, species, labels),
  }
}

function unmatchedTable(labels: LabelMatches, species: SpeciesTable): JoinedTable {
  const cellOf = new Map(species.quadrats.map(({ label, cell }) => [label, cell]))
  const typedRow = (label: string, reason: string, suggestion: string | null = null): JoinedCell[] => [
    'species',
    label,
    cellOf.get(label) ?? null,
    reason,
    suggestion,
  ]
  return {
    headings: ['side', 'label', 'cell', 'reason', 'suggestion'],
    rows: [
      ...labels.unmatchedSurvey.map((label): JoinedCell[] => [
        'readings',
        label,
        null,
        'no species were typed for it',
        null,
      ]),
      ...labels.suggested.map(({ typed, survey, why }) =>
        typedRow(typed, `awaits confirmation: ${why}`, survey),
      ),
      ...labels.doubled.flatMap(({ survey, typed }) =>
        typed.map((label) => typedRow(label, `several labels mean ${survey}`, survey)),
      ),
      ...labels.unmatchedTyped.map((label) => typedRow(label, 'no readings have this label')),
      ...species.faults.map(({ cell, written, message }): JoinedCell[] => [
        'species',
        written,
        cell,
        message,
        null,
      ]),
    ],
  }
}
