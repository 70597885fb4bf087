import { ofSurvey } from '../../client.ts'
import type { Coordinates } from '../report/report-address.ts'
import type { StudyWish } from '../study-wish.ts'

export interface StudyExport {
  name: 'workbook' | 'tables' | 'darwin-core' | 'parquet' | 'bundle'
  title: string
  ending: 'xlsx' | 'zip' | 'parquet'
  /** what it is for, and who can open it */
  text: string
}

/** The files that can be made of a study, the one most classes want first. */
export const studyExports: readonly StudyExport[] = [
  {
    name: 'workbook',
    title: 'Workbook',
    ending: 'xlsx',
    text: 'For the class: the joined table, summaries and species in a spreadsheet. Excel and LibreOffice open it.',
  },
  {
    name: 'tables',
    title: 'Tables with their descriptions',
    ending: 'zip',
    text: 'CSV for any program, with every column described as CSV on the Web and as a Frictionless Data Package.',
  },
  {
    name: 'darwin-core',
    title: 'Darwin Core archive',
    ending: 'zip',
    text: 'For a biodiversity portal: sampling events, occurrences with absences, measurements with unit and method.',
  },
  {
    name: 'parquet',
    title: 'Parquet',
    ending: 'parquet',
    text: 'Clean readings for data analysis: typed columns, small and fast. Python, R and DuckDB read it.',
  },
  {
    name: 'bundle',
    title: 'Study bundle',
    ending: 'zip',
    text: 'The whole study to keep: data, calibrations, decisions, quality rules, checksums. “tussock verify” computes its numbers again and compares.',
  },
]

export const licences = [
  { value: '', label: 'none given yet' },
  { value: 'CC0-1.0', label: 'CC0: anybody, for anything' },
  { value: 'CC-BY-4.0', label: 'CC BY: anybody who names you' },
  { value: 'CC-BY-NC-4.0', label: 'CC BY-NC: who names you, not to earn money' },
] as const

export interface ExportWish {
  coordinates: Coordinates
  /** one of `licences`; empty: the file says that none was given */
  licence: string
  window: StudyWish['window']
  hydrogenIons: boolean
}

export function exportAddress(survey: string, name: StudyExport['name'], wish: ExportWish): string {
  const query = new URLSearchParams({ coordinates: wish.coordinates, window: wish.window })
  if (wish.hydrogenIons) query.set('hydrogenIons', 'yes')
  if (wish.licence !== '') query.set('licence', wish.licence)
  return `${ofSurvey(survey)}/export/${name}?${query}`
}
