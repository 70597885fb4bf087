import { cell } from './readings-csv.ts'
import { significant } from './significant.ts'

/** More digits than any probe has, few enough to leave out what only binary numbers bring. */
const DIGITS = 12

/** null: not known */
export type CsvCell = string | number | boolean | null | undefined

/** One line of RFC 4180: numbers and true/false as they are, text quoted where needed and never run as a formula. */
export function csvLine(cells: readonly CsvCell[]): string {
  return `${cells.map(written).join(',')}\r\n`
}

function written(content: CsvCell): string {
  if (typeof content === 'string') return cell(content)
  return String((typeof content === 'number' ? significant(content, DIGITS) : content) ?? '')
}

export function* csvLines(
  headings: readonly string[],
  rows: Iterable<readonly CsvCell[]>,
): Generator<string> {
  yield csvLine(headings)
  for (const row of rows) yield csvLine(row)
}
