import type { Refusal } from '../../../calibration/index.ts'
import { refuseSheet } from './sheet-refusal.ts'

/**
 * A cell as it was stored. `formula` carries the result last saved in the file: its `text` is empty when none was saved.
 * `text` is what a person would see, a number in its shortest form with a point.
 */
export interface SheetCell {
  kind: 'text' | 'number' | 'date' | 'formula' | 'blank'
  text: string
}

/** Rows of equal length; row 0, column 0 is A1. */
export interface SheetGrid {
  rows: readonly (readonly SheetCell[])[]
  merges: readonly MergedCells[]
}

/** All four counted from 0, ends included. */
export interface MergedCells {
  fromRow: number
  fromColumn: number
  toRow: number
  toColumn: number
}

export const BLANK: SheetCell = { kind: 'blank', text: '' }

/** What a spreadsheet calls it: row 6, column 1 (from 0) is B7. */
export function cellAddress(row: number, column: number): string {
  let letters = ''
  for (let rest = column; rest >= 0; rest = Math.floor(rest / 26) - 1)
    letters = String.fromCharCode(65 + (rest % 26)) + letters
  return `${letters}${row + 1}`
}

/** Fills rows up to one length and cuts blank rows at the end and blank columns at the right. Addresses stay. */
export function squareGrid(
  rows: readonly (readonly SheetCell[])[],
  merges: readonly MergedCells[] = [],
): SheetGrid {
  const isFilled = (cell: SheetCell) => cell.kind !== 'blank'
  const height = rows.findLastIndex((row) => row.some(isFilled)) + 1
  const kept = rows.slice(0, height)
  const width = kept.reduce((most, row) => Math.max(most, row.findLastIndex(isFilled) + 1), 0)
  return {
    rows: kept.map((row) => Array.from({ length: width }, (_, column) => row[column] ?? BLANK)),
    merges,
  }
}

export function textCell(text: string): SheetCell {
  return text.trim() === '' ? BLANK : { kind: 'text', text }
}

export const CELLS_MAX = 1_000_000
export const ROWS_MAX = 50_000

/** True of a table no class types: its rectangle would fill the memory of a small computer. */
export function isTooLarge(rows: readonly (readonly unknown[])[]): boolean {
  const width = rows.reduce((most, row) => Math.max(most, row.length), 0)
  return rows.length > ROWS_MAX || rows.length * width > CELLS_MAX
}

export function tooLarge(): Refusal {
  return refuseSheet(
    'E_SHEET_SIZE',
    'The table has more rows and columns than any class types. Copy the table alone into a new file.',
  )
}
