import type { SpeciesTable } from '../../../hub/contract/species.ts'
import { addressAt, placeOfCell } from './cell-address.ts'

export type CellStanding = 'label' | 'read' | 'repaired' | 'fault' | 'blank'

export interface PreviewCell {
  text: string
  standing: CellStanding
  /** what was done with it, or what is wrong; null when it is plain */
  note: string | null
}

export interface SheetPreview {
  /** columns counted from 0 */
  columns: number[]
  /** `number` as the spreadsheet counts, from 1 */
  rows: { number: number; cells: (PreviewCell | null)[] }[]
  /** rows that are not shown because there are so many */
  hiddenRows: number
}

const ROWS_AT_MOST = 60

/**
 * The sheet as far as the hub read it, each text at its own address, doubtful cells marked. Cells that were left aside
 * (titles, sums, remarks) are gaps. Null when the reading names no cells.
 */
export function sheetPreview(table: SpeciesTable): SheetPreview | null {
  const cells = new Map<string, PreviewCell>()
  const put = (address: string, text: string, standing: CellStanding, note: string | null = null) => {
    if (placeOfCell(address)) cells.set(address, { text, standing, note })
  }
  for (const { cell } of table.notRecorded) put(cell, '', 'blank', 'not recorded')
  for (const { cell, asWritten, taxon } of [...table.records, ...table.ground])
    put(cell, asWritten, asWritten.trim() === '' ? 'blank' : 'read', isGround(table, taxon) ? 'ground' : null)
  for (const { address, text } of labelCells(table)) put(address, text, 'label')
  for (const { label, cell } of table.quadrats) put(cell, label, 'label')
  for (const { name, cell } of table.taxa) put(cell, name, 'label')
  for (const { cell, from, to, why } of table.repairs) put(cell, from, 'repaired', `read as ${to}: ${why}`)
  for (const { cell, written, message } of table.faults) put(cell, written, 'fault', message)
  return cells.size === 0 ? null : laidOut(cells)
}

function isGround(table: SpeciesTable, taxon: string): boolean {
  return table.ground.some((record) => record.taxon === taxon)
}

/** Labels that the reading names once stand again where rows repeat them, and those of bare ground, which are no taxa. */
function labelCells(table: SpeciesTable): { address: string; text: string }[] {
  const quadrat = placeOfCell(table.quadrats[0]?.cell ?? '')
  const taxon = placeOfCell(table.taxa[0]?.cell ?? '')
  if (!quadrat || !taxon) return []
  const isList = quadrat.row === taxon.row
  const isTaxaDown = quadrat.row < taxon.row
  return [...table.records, ...table.ground].flatMap((record) => {
    const at = placeOfCell(record.cell)
    if (!at) return []
    if (isList)
      return [
        { address: addressAt({ row: at.row, column: quadrat.column }), text: record.quadrat },
        { address: addressAt({ row: at.row, column: taxon.column }), text: record.taxon },
      ]
    if (!isGround(table, record.taxon)) return []
    const place = isTaxaDown ? { row: at.row, column: taxon.column } : { row: taxon.row, column: at.column }
    return [{ address: addressAt(place), text: record.taxon }]
  })
}

function laidOut(cells: ReadonlyMap<string, PreviewCell>): SheetPreview {
  const places = [...cells.keys()].map((address) => placeOfCell(address)!)
  const span = (counts: readonly number[]) => {
    const least = counts.reduce((low, each) => Math.min(low, each), Infinity)
    const most = counts.reduce((high, each) => Math.max(high, each), 0)
    return Array.from({ length: most - least + 1 }, (_, place) => least + place)
  }
  const columns = span(places.map(({ column }) => column))
  const rows = span(places.map(({ row }) => row))
  return {
    columns,
    rows: rows.slice(0, ROWS_AT_MOST).map((row) => ({
      number: row + 1,
      cells: columns.map((column) => cells.get(addressAt({ row, column })) ?? null),
    })),
    hiddenRows: Math.max(0, rows.length - ROWS_AT_MOST),
  }
}
