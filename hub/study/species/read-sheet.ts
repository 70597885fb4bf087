import { isRefusal, type Refusal } from '../../../calibration/index.ts'
import { decodeText } from './decode-text.ts'
import { readSeparated } from './separated-text.ts'
import {
  cellAddress,
  isTooLarge,
  ROWS_MAX,
  type SheetGrid,
  squareGrid,
  textCell,
  tooLarge,
} from './sheet-grid.ts'
import { kindRefused, startsWith } from './sheet-kind.ts'
import { refuseSheet } from './sheet-refusal.ts'

export const SHEET_MAX_BYTES = 10_000_000
const CELL_LETTERS_MAX = 10_000

export interface ReadSheet {
  format: 'csv' | 'xlsx' | 'ods'
  /** null for CSV, which has no sheets */
  sheetName: string | null
  grid: SheetGrid
  /** encoding, separator, decimal comma, formulas: how it was read, a sentence each */
  notes: string[]
}

/** A workbook in which several sheets hold something, and none was named. */
export interface SheetChoice {
  sheetNames: string[]
}

/**
 * The bytes of a file to one grid of cells. What it is, is told by its bytes; the name is used in messages only.
 * @param sheetName  of a workbook with several sheets; case and outer spaces do not matter
 * @returns the grid; a choice of sheets; or a refusal, E_SHEET_… (see sheet-refusal.ts), that says what to do
 */
export async function readSheet(
  bytes: Uint8Array,
  fileName: string,
  sheetName?: string,
): Promise<ReadSheet | SheetChoice | Refusal> {
  if (bytes.length > SHEET_MAX_BYTES)
    return refuseSheet(
      'E_SHEET_SIZE',
      `${fileName} has ${(bytes.length / 1e6).toFixed(1)} MB; a table of species may have 10 MB. Copy the table alone into a new file.`,
    )
  const wrong = kindRefused(bytes, fileName)
  if (wrong) return wrong
  const read = startsWith(bytes, 'PK')
    ? await sheetOfWorkbook(bytes, fileName, sheetName)
    : sheetOfText(bytes)
  if (isRefusal(read) || 'sheetNames' in read) return read
  const long = longCell(read.grid)
  if (long !== null)
    return refuseSheet(
      'E_SHEET_SIZE',
      `Cell ${long} of ${fileName} holds more than ${CELL_LETTERS_MAX} letters. Shorten it, or copy the table alone into a new file.`,
    )
  const filled = read.grid.rows.filter((row) => row.some(({ kind }) => kind !== 'blank')).length
  if (filled < 2)
    return refuseSheet(
      'E_SHEET_EMPTY',
      filled === 0
        ? `${fileName} is empty. Type the table into it, or choose another file.`
        : `${fileName} has headings only. Type at least one row below them, or choose another file.`,
    )
  return { ...read, notes: [...read.notes, ...formulaNotes(read.grid)] }
}

/** The first cell with more text than anyone types into one; every name is later compared with every other. */
function longCell({ rows }: SheetGrid): string | null {
  for (const [rowNumber, row] of rows.entries()) {
    const column = row.findIndex(({ text }) => text.length > CELL_LETTERS_MAX)
    if (column !== -1) return cellAddress(rowNumber, column)
  }
  return null
}

async function sheetOfWorkbook(
  bytes: Uint8Array,
  fileName: string,
  sheetName: string | undefined,
): Promise<ReadSheet | SheetChoice | Refusal> {
  // takes memory, and most tables are CSV
  const { readWorkbook } = await import('./read-workbook.ts')
  const workbook = await readWorkbook(bytes)
  if (isRefusal(workbook)) return workbook
  const { format, sheets } = workbook
  const names = sheets.map(({ name }) => name)
  if (sheetName === undefined && sheets.length > 1) return { sheetNames: names }
  const folded = (name: string) => name.trim().toLowerCase()
  const sheet =
    sheetName === undefined ? sheets[0] : sheets.find(({ name }) => folded(name) === folded(sheetName))
  if (sheet)
    return {
      format,
      sheetName: sheet.name,
      grid: sheet.grid,
      notes: [`The sheet “${sheet.name}” was read.`, ...sheet.notes],
    }
  if (sheetName === undefined)
    return refuseSheet(
      'E_SHEET_EMPTY',
      `${fileName} is empty. Type the table into it, or choose another file.`,
    )
  return refuseSheet(
    'E_SHEET_UNKNOWN',
    `${fileName} has no sheet “${sheetName}”. Its sheets with something in them: ${names.join(', ') || 'none'}.`,
  )
}

function sheetOfText(bytes: Uint8Array): ReadSheet | Refusal {
  const decoded = decodeText(bytes)
  if (isRefusal(decoded)) return decoded
  // counted first: a file of line ends alone would be millions of rows
  const isLong = (decoded.text.match(/\n|\r(?!\n)/g)?.length ?? 0) > ROWS_MAX
  const separated = isLong ? tooLarge() : readSeparated(decoded.text)
  if (isRefusal(separated)) return separated
  if (isTooLarge(separated.rows)) return tooLarge()
  const { rows, separator } = separated
  const decimalCommas = rows.flat().filter((text) => /^\s*[<+-]?\d+,\d+\s*%?\s*$/.test(text)).length
  return {
    format: 'csv',
    sheetName: null,
    grid: squareGrid(rows.map((row) => row.map(textCell))),
    notes: [
      `Text in ${decoded.encoding}, cells divided by ${separator === 'tab' ? 'tabs' : `${separator}s`}.`,
      ...(decimalCommas === 0
        ? []
        : [
            `${decimalCommas} ${decimalCommas === 1 ? 'number has' : 'numbers have'} a decimal comma, which is read as a decimal point.`,
          ]),
    ],
  }
}

function formulaNotes({ rows }: SheetGrid): string[] {
  const cells = rows.flatMap((row, rowNumber) =>
    row.flatMap(({ kind, text }, column) =>
      kind === 'formula' && text !== '' ? [cellAddress(rowNumber, column)] : [],
    ),
  )
  if (cells.length === 0) return []
  return [
    `${cells.length} ${cells.length === 1 ? 'cell is a formula' : 'cells are formulas'} (${firstFew(cells)}): the result last saved was used.`,
  ]
}

/** At most six, then how many more. */
export function firstFew(names: readonly string[]): string {
  const more = names.length - 6
  return `${names.slice(0, 6).join(', ')}${more > 0 ? ` and ${more} more` : ''}`
}
