import type { SurveyFile } from '../../contract/survey.ts'
import { csvLines } from '../csv-line.ts'
import type { Column, DataTable } from './data-table.ts'

const COLUMNS: readonly Column[] = [
  { name: 'decision', type: 'string', title: 'Decision', description: 'Its id.' },
  { name: 'probe', type: 'string', title: 'Probe', description: 'Whose readings.' },
  { name: 'from', type: 'datetime', title: 'From', description: 'The first moment it is about.' },
  { name: 'to', type: 'datetime', title: 'To', description: 'The first moment it is no longer about.' },
  {
    name: 'action',
    type: 'string',
    title: 'Action',
    description: '“exclude”, or “accept” of suspect readings.',
  },
  { name: 'reason', type: 'string', title: 'Reason', description: 'In the words of who decided.' },
  { name: 'by', type: 'string', title: 'By', description: 'The group’s label.' },
  { name: 'at', type: 'datetime', title: 'At', description: 'When it was decided.' },
  { name: 'taken_back', type: 'datetime', title: 'Taken back', description: 'Empty: it counts.' },
]

/** What people have left out or let in by hand, those taken back too. */
export function decisionsTable({ decisions }: SurveyFile): DataTable {
  return {
    name: 'decisions',
    title: 'Decisions by hand',
    description: 'Readings that people left out or accepted, each with its reason.',
    columns: COLUMNS,
    primaryKey: ['decision'],
    lines: csvLines(
      COLUMNS.map(({ name }) => name),
      (decisions ?? []).map(({ id, probe, from, to, action, reason, by, at, takenBack }) => [
        ...[id, probe, from, to, action, reason, by, at, takenBack?.at],
      ]),
    ),
  }
}
