import { type Cell, type CellValue, readOds, type Sheet } from 'hucre/ods'
import { readXlsx } from 'hucre/xlsx'
import { isRefusal, type Refusal } from '../../../calibration/index.ts'
import { BLANK, isTooLarge, type SheetCell, type SheetGrid, squareGrid, tooLarge } from './sheet-grid.ts'
import { refuseSheet } from './sheet-refusal.ts'
import { asPercent, openWorkbook, percentNote } from './workbook-parts.ts'

export interface WorkbookSheet {
  name: string
  grid: SheetGrid
  notes: string[]
}

/** A workbook’s visible sheets that have something in them, .xlsx (ISO/IEC 29500) or .ods (OASIS OpenDocument). */
export async function readWorkbook(
  packed: Uint8Array,
): Promise<{ format: 'xlsx' | 'ods'; sheets: WorkbookSheet[] } | Refusal> {
  const parts = openWorkbook(packed)
  if (isRefusal(parts)) return parts
  try {
    const read = parts.format === 'xlsx' ? readXlsx : readOds
    const { sheets } = await read(parts.bytes, { readStyles: true })
    const visible = sheets.filter((sheet) => !sheet.hidden && !sheet.veryHidden)
    if (visible.some(({ rows }) => isTooLarge(rows))) return tooLarge()
    return {
      format: parts.format,
      sheets: visible
        .map((sheet) => readSheetCells(sheet, parts.notes))
        .filter(({ grid }) => grid.rows.length > 0),
    }
  } catch {
    return refuseSheet(
      'E_SHEET_DAMAGED',
      'This workbook cannot be read: it is damaged, or locked with a password. Save it again without a password, or save it as CSV.',
    )
  }
}

function readSheetCells(sheet: Sheet, workbookNotes: readonly string[]): WorkbookSheet {
  let percentCells = 0
  const rows = sheet.rows.map((row, rowNumber) =>
    row.map((value, column): SheetCell => {
      const cell = sheet.cells?.get(`${rowNumber},${column}`)
      if (cell?.formula !== undefined) return { kind: 'formula', text: shown(value, cell) }
      if (isPercent(value, cell)) percentCells++
      return plainCell(value, cell)
    }),
  )
  const merges = (sheet.merges ?? []).map(({ startRow, startCol, endRow, endCol }) => ({
    fromRow: startRow,
    fromColumn: startCol,
    toRow: endRow,
    toColumn: endCol,
  }))
  const notes = [...workbookNotes, ...(percentCells === 0 ? [] : [percentNote(percentCells)])]
  return { name: sheet.name, grid: squareGrid(rows, merges), notes }
}

function plainCell(value: CellValue, cell: Cell | undefined): SheetCell {
  const text = shown(value, cell)
  if (text.trim() === '') return BLANK
  if (value instanceof Date) return { kind: 'date', text }
  return { kind: typeof value === 'number' ? 'number' : 'text', text }
}

function shown(value: CellValue, cell: Cell | undefined): string {
  if (value === null || value === undefined) return ''
  if (value instanceof Date) {
    const time = value.toISOString().slice(0, 16)
    return time.endsWith('T00:00') ? time.slice(0, 10) : time.replace('T', ' ')
  }
  return isPercent(value, cell) ? String(asPercent(value)) : String(value)
}

function isPercent(value: CellValue, cell: Cell | undefined): value is number {
  return typeof value === 'number' && (cell?.style?.numFmt?.includes('%') ?? false)
}
