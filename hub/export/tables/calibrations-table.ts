import { fitCalibration, isRefusal } from '../../../calibration/index.ts'
import type { Calibration, SurveyFile } from '../../contract/survey.ts'
import { type CsvCell, csvLines } from '../csv-line.ts'
import type { Column, DataTable } from './data-table.ts'

const COLUMNS: readonly Column[] = [
  { name: 'calibration', type: 'string', title: 'Calibration', description: 'Its id.' },
  { name: 'probe', type: 'string', title: 'Probe', description: 'Of which probe.' },
  { name: 'quantity', type: 'string', title: 'Quantity', description: 'What the probe measures.' },
  {
    name: 'valid_from',
    type: 'datetime',
    title: 'Valid from',
    description: 'Until the next one of the probe.',
  },
  { name: 'kind', type: 'string', title: 'Kind', description: 'Which curve.' },
  {
    name: 'verdict',
    type: 'string',
    title: 'Verdict',
    description: 'One that fails never comes into force.',
  },
  { name: 'advice', type: 'string', title: 'Advice', description: 'What is wrong, and what to do.' },
  { name: 'unit', type: 'string', title: 'Unit', description: 'Of the values it gives, as SenML writes it.' },
  { name: 'by', type: 'string', title: 'By', description: 'The group’s label.' },
  { name: 'note', type: 'string', title: 'Note', description: 'As it was written down.' },
  { name: 'withdrawn', type: 'datetime', title: 'Withdrawn', description: 'Empty: it counts.' },
  { name: 'withdrawn_reason', type: 'string', title: 'Why withdrawn', description: 'In words.' },
  {
    name: 'recipe',
    type: 'string',
    title: 'What was entered',
    description: 'Points and settings as JSON: from it the curve is worked out anew at any time.',
  },
]

export const CALIBRATION_HEADINGS = COLUMNS.map(({ name }) => name)

export function calibrationRows({ calibrations, probes }: SurveyFile): CsvCell[][] {
  const quantities = new Map(probes.map(({ id, quantity }) => [id, quantity]))
  return calibrations.map((calibration) => {
    const { id, probe, validFrom, recipe, by, note, withdrawn } = calibration
    return [
      ...[id, probe, quantities.get(probe), validFrom, recipe.kind, ...judged(calibration)],
      ...[by, note, withdrawn?.at, withdrawn?.reason, JSON.stringify(recipe)],
    ]
  })
}

function judged({ recipe }: Calibration): [string, string, string] {
  const fitted = fitCalibration(recipe)
  if (isRefusal(fitted)) return ['fail', fitted.message, '']
  return [fitted.verdict, fitted.advice.map(({ text }) => text).join(' '), fitted.unit]
}

/** Every calibration of the survey, those that failed or were withdrawn too. */
export function calibrationsTable(survey: SurveyFile): DataTable {
  return {
    name: 'calibrations',
    title: 'Calibrations',
    description: 'Each with its verdict and all that was entered.',
    columns: COLUMNS,
    primaryKey: ['calibration'],
    lines: csvLines(CALIBRATION_HEADINGS, calibrationRows(survey)),
  }
}
