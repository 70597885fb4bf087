import type { CellValue, WriteSheet } from 'hucre/xlsx'
import type { CsvCell } from '../csv-line.ts'
import { defused } from '../readings-csv.ts'

/** The most characters a cell holds (ECMA-376 as spreadsheets keep it). */
const CHARACTERS = 32_767

/** A sheet with a heading that stays in view. Numbers are numbers; text is text and never a formula. */
export function tableSheet(
  name: string,
  headings: readonly string[],
  rows: readonly (readonly CsvCell[])[],
): WriteSheet {
  return {
    name,
    rows: [headings.map(inCell), ...rows.map((row) => row.map(inCell))],
    columns: headings.map((heading, column) => ({ width: widthOf(heading, rows, column) })),
    freezePane: { rows: 1 },
  }
}

/** In characters: as wide as the heading and the first rows need, within reason. */
function widthOf(heading: string, rows: readonly (readonly CsvCell[])[], column: number): number {
  const cells = rows.slice(0, 50).map((row) => String(row[column] ?? '').length)
  return Math.min(40, Math.max(8, heading.length, ...cells) + 2)
}

/** A sheet of sentences, one a row. */
export function textSheet(name: string, lines: readonly string[]): WriteSheet {
  return { name, rows: lines.map((line) => [inCell(line)]), columns: [{ width: 110 }] }
}

function inCell(content: CsvCell): CellValue {
  if (typeof content === 'number') return Number.isFinite(content) ? content : null
  if (typeof content !== 'string') return content ?? null
  // control characters have no place in XML 1.0
  return defused(content.replace(/[^\P{Cc}\t\n\r]/gu, '�')).slice(0, CHARACTERS)
}
