import { exportQuery } from '../../contract/export-query.ts'
import { readingsCsv } from '../readings-csv.ts'
import type { ExportSource } from '../study-export.ts'
import type { DataTable } from './data-table.ts'
import { READINGS_COLUMNS, REASON_COLUMNS } from './readings-columns.ts'

/**
 * Clean readings, and those left out with their reasons: together they are all, exactly. The same lines as the download
 * of readings. Two messages may tell of one moment, so a row has no key.
 */
export function readingsTables({ store, timelines, survey }: ExportSource): DataTable[] {
  const lines = (set: 'clean' | 'excluded') =>
    readingsCsv(store, timelines, exportQuery.parse({ set, survey: survey.id, method: 'shown' }))
  return [
    {
      name: 'readings-clean',
      title: 'Clean readings',
      description:
        'Placed at a quadrat, at a trusted time, under a calibration that passed, not suspect, not left out by hand.',
      columns: READINGS_COLUMNS,
      lines: lines('clean'),
    },
    {
      name: 'readings-excluded',
      title: 'Readings left out, each with its reason',
      description: 'Every reading of the survey that is not clean. Nothing was deleted.',
      columns: [...READINGS_COLUMNS, ...REASON_COLUMNS],
      lines: lines('excluded'),
    },
  ]
}
