import { cell } from './readings-csv.ts'

/** null: not known */
export type CsvCell = string | number | boolean | null | undefined

/** One line of RFC 4180: numbers and true/false as they are, text quoted where needed and never run as a formula. */
export function csvLine(cells: readonly CsvCell[]): string {
  return `${cells.map((content) => (typeof content === 'string' ? cell(content) : String(content ?? ''))).join(',')}\r\n`
}

export function* csvLines(
  headings: readonly string[],
  rows: Iterable<readonly CsvCell[]>,
): Generator<string> {
  yield csvLine(headings)
  for (const row of rows) yield csvLine(row)
}
