import { cell } from '../../export/readings-csv.ts'
import type { JoinedCell, JoinedTable } from './join-species.ts'

/** A joined table as CSV: RFC 4180, UTF-8, CR LF; not recorded is empty; text that would run as a formula is defused. */
export function joinedCsv({ headings, rows }: JoinedTable): string {
  return [headings, ...rows].map((row) => `${row.map(written).join(',')}\r\n`).join('')
}

function written(content: JoinedCell): string {
  if (content === null) return ''
  return typeof content === 'number' ? String(content) : cell(content)
}
