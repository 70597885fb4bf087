import type { SpeciesFault } from '../../contract/species.ts'
import { headingTexts } from './heading-rows.ts'
import { headingSays } from './heading-words.ts'
import type { RecognisedLayout } from './recognise-layout.ts'
import { BLANK, cellAddress, type SheetCell, type SheetGrid } from './sheet-grid.ts'
import { taxonKind, tidyTaxon } from './taxon-name.ts'

/** One cell of the table with the quadrat and the taxon it belongs to, as typed, and where those stand. */
export interface TableEntry {
  quadrat: string
  quadratCell: string
  taxon: string
  taxonCell: string
  cell: SheetCell
  address: string
}

export interface SpreadTable {
  entries: TableEntry[]
  faults: SpeciesFault[]
  /** rows and columns that are neither quadrat nor species, each said */
  leftAside: string[]
}

interface Head {
  text: string
  place: number
  address: string
}

/** Any layout of quadrats and species to the same entries, row by row. Marks are read by read-marks.ts. */
export function spreadTable(grid: SheetGrid, layout: RecognisedLayout): SpreadTable {
  return layout.layout === 'long' ? spreadList(grid, layout) : spreadCross(grid, layout)
}

function spreadCross(grid: SheetGrid, layout: RecognisedLayout): SpreadTable {
  const { labelColumn, headingRow } = layout
  const { texts } = headingTexts(grid, layout)
  const isAcross = layout.layout === 'quadrats-across'
  const leftAside = texts
    .slice(0, labelColumn)
    .map(
      (text, column) =>
        `Column ${cellAddress(headingRow, column)} “${text}” is before the labels: left aside.`,
    )
  const keep = ({ text, address }: Head): boolean => {
    const kind = taxonKind(text)
    if (kind !== 'sum' && kind !== 'remark' && !headingSays(text, 'taxon')) return true
    leftAside.push(`“${text}” (${address}) is ${kind === 'sum' ? 'a sum' : 'a remark'}: left aside.`)
    return false
  }
  const heads = texts
    .map((text, place): Head => ({ text, place, address: cellAddress(headingRow, place) }))
    .filter(({ place }) => place > labelColumn)
  const columns = heads.filter((head) => head.text !== '' && keep(head))
  const unnamed = heads.filter(({ text }) => text === '')
  const spread: SpreadTable = { entries: [], faults: [], leftAside }
  for (let row = headingRow + 1; row < grid.rows.length; row++) {
    const cells = grid.rows[row]!
    const head: Head = {
      text: cells[labelColumn]!.text.trim(),
      place: row,
      address: cellAddress(row, labelColumn),
    }
    const stray = (places: readonly Head[], message: string) => {
      for (const { place } of places)
        if (cells[place]!.kind !== 'blank')
          spread.faults.push({ cell: cellAddress(row, place), written: cells[place]!.text, message })
    }
    if (head.text === '') {
      stray(heads, `there is no ${isAcross ? 'species' : 'quadrat'} at the start of this row`)
      continue
    }
    if (!keep(head)) continue
    stray(unnamed, `there is no ${isAcross ? 'quadrat' : 'species'} at the head of this column`)
    for (const column of columns) {
      const [quadrat, taxon] = isAcross ? [column, head] : [head, column]
      spread.entries.push(entry(quadrat, taxon, cells[column.place]!, cellAddress(row, column.place)))
    }
  }
  return spread
}

function spreadList(grid: SheetGrid, layout: RecognisedLayout): SpreadTable {
  const { headingRow, labelColumn, taxonColumn, valueColumn } = layout
  const spread: SpreadTable = { entries: [], faults: [], leftAside: [] }
  for (let row = headingRow + 1; row < grid.rows.length; row++) {
    const cells = grid.rows[row]!
    const head = (place: number): Head => ({
      text: cells[place]?.text.trim() ?? '',
      place,
      address: cellAddress(row, place),
    })
    const quadrat = head(labelColumn)
    const taxon = head(taxonColumn)
    const cell = valueColumn < 0 ? { kind: 'text' as const, text: '✓' } : (cells[valueColumn] ?? BLANK)
    if (taxonKind(taxon.text) === 'sum' || taxonKind(quadrat.text) === 'sum')
      spread.leftAside.push(`Row ${row + 1} is a sum: left aside.`)
    else if (quadrat.text !== '' && taxon.text !== '')
      spread.entries.push(entry(quadrat, taxon, cell, cellAddress(row, Math.max(valueColumn, taxonColumn))))
    else if (cells.some(({ kind }) => kind !== 'blank'))
      spread.faults.push({
        cell: quadrat.text === '' ? quadrat.address : taxon.address,
        written: '',
        message: `there is no ${quadrat.text === '' ? 'quadrat' : 'species'} in this row`,
      })
  }
  return spread
}

function entry(quadrat: Head, taxon: Head, cell: SheetCell, address: string): TableEntry {
  return {
    quadrat: quadrat.text.normalize('NFKC').replace(/\s+/g, ' ').replace(/^'/, ''),
    quadratCell: quadrat.address,
    taxon: tidyTaxon(taxon.text),
    taxonCell: taxon.address,
    cell,
    address,
  }
}
