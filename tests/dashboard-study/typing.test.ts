import { describe, expect, it } from 'vitest'
import { typedAsCsv } from '../../dashboard/study/typing/typing-csv.ts'
import {
  blankGrid,
  columnsOf,
  coverSum,
  isBlankGrid,
  namelessRows,
  withCell,
  withName,
  withOneMore,
} from '../../dashboard/study/typing/typing-grid.ts'
import { moveFrom } from '../../dashboard/study/typing/typing-moves.ts'
import type { SpeciesMeasure } from '../../hub/contract/species.ts'
import { readSpeciesSheet } from '../../hub/study/read-study-sheet.ts'

const QUADRATS = ['Q1', 'Q2', 'Q3']

function paperSheet(measure: SpeciesMeasure, values: readonly string[] = ['12,5', '+', '0']) {
  let grid = withName(blankGrid(measure), 0, ' Bramble ')
  for (const [place, text] of values.entries()) grid = withCell(grid, 0, QUADRATS[place]!, text)
  grid = withName(grid, 1, 'Moss, "feather"')
  return withCell(grid, 1, 'Q1', values[0]!)
}

const readBack = async (csv: string) => {
  const table = await readSpeciesSheet(
    { bytes: new TextEncoder().encode(csv), name: 'typed.csv', answers: {} },
    QUADRATS,
  )
  if (!('records' in table)) throw new Error(table.message)
  return table
}

// expected: the class's paper sheet, species down and quadrats across (common practice, no source)
describe('the typing sheet', () => {
  it('is the CSV of the same layout, every cell as typed', () => {
    expect(typedAsCsv(paperSheet('cover-percent'), QUADRATS)).toBe(
      'Species (cover %),Q1,Q2,Q3\r\nBramble,"12,5",+,0\r\n"Moss, ""feather""","12,5",,\r\n',
    )
  })

  it('is read by the hub’s own reader: comma decimals, traces, zeros, and blanks that stay blank', async () => {
    const table = await readBack(typedAsCsv(paperSheet('cover-percent'), QUADRATS))
    const values = table.records.map(({ quadrat, taxon, value }) => [taxon, quadrat, value])
    // 12,5 is 12.5; a trace stands as 0.5 % unless said otherwise (domain map 2.8); 0 is absent
    expect(values).toEqual([
      ['Bramble', 'Q1', 12.5],
      ['Bramble', 'Q2', 0.5],
      ['Bramble', 'Q3', 0],
      ['Moss, "feather"', 'Q1', 12.5],
    ])
    expect(table.notRecorded.map(({ quadrat }) => quadrat)).toEqual(['Q2', 'Q3'])
    expect(table.questions.map(({ id }) => id)).toEqual(['blank'])
  })

  it.each<[SpeciesMeasure, string[]]>([
    ['cover-percent', ['4', '3', '0']],
    ['grid-hits', ['7/25', '3/25', '0/25']],
    ['touches', ['9/13', '7/28', '0/13']],
    ['presence', ['1', '1', '0']],
    ['count', ['4', '3', '0']],
    ['braun-blanquet', ['+', '2', '1']],
    ['domin', ['4', '10', '1']],
  ])('says in its corner what was measured: %s', async (measure, values) => {
    const table = await readBack(typedAsCsv(paperSheet(measure, values), QUADRATS))
    expect(table.measure).toBe(measure)
    expect(table.faults).toEqual([])
  })

  it('leaves out rows without a name, and names those that hold values by their number', () => {
    const grid = withCell(blankGrid(), 2, 'Q1', '5')
    expect(namelessRows(grid)).toEqual([3])
    expect(typedAsCsv(grid, QUADRATS)).toBe('Species (cover %),Q1,Q2,Q3\r\n')
  })

  it('is blank at first, and again when what was typed is taken out', () => {
    expect(isBlankGrid(blankGrid())).toBe(true)
    const typed = withCell(blankGrid(), 0, 'Q1', '0')
    expect(isBlankGrid(typed)).toBe(false)
    const emptied = withCell(typed, 0, 'Q1', '')
    expect(isBlankGrid(emptied)).toBe(true)
    expect(emptied.rows[0]!.cells).toEqual({})
  })

  it('keeps what was typed for a quadrat that the plan has no more', () => {
    expect(columnsOf(withCell(blankGrid(), 0, 'Q9', '5'), QUADRATS)).toEqual(['Q1', 'Q2', 'Q3', 'Q9'])
  })

  it('grows by one row at a time', () => {
    const grid = blankGrid()
    expect(withOneMore(grid).rows.length).toBe(grid.rows.length + 1)
  })

  it('adds up cover by quadrat, with commas, and nothing else', () => {
    // 71 + 23 + 9 + 6 = 109 % of layered plants, story A12 of the domain map
    let grid = blankGrid()
    for (const [row, text] of ['71', '23 %', '9', '6,0'].entries()) grid = withCell(grid, row, 'Q1', text)
    grid = withCell(grid, 4, 'Q1', '+')
    expect(coverSum(grid, 'Q1')).toBe(109)
    expect(coverSum(grid, 'Q2')).toBeNull()
    expect(coverSum({ ...grid, measure: 'count' }, 'Q1')).toBeNull()
  })
})

// expected: how people move on a paper sheet and in a spreadsheet (common practice, no source)
describe('moveFrom', () => {
  const size = { rows: 3, columns: 2 }
  const inside = { start: 1, end: 1, length: 2 }
  const atEnds = { start: 0, end: 0, length: 0 }
  const from = (row: number, column: number, key: string, caret = atEnds) =>
    moveFrom({ row, column }, key, size, caret)

  it('goes down the species with Enter, then to the top of the next quadrat, and stops after the last', () => {
    expect(from(0, 0, 'Enter')).toEqual({ row: 1, column: 0 })
    expect(from(2, 0, 'Enter')).toEqual({ row: 0, column: 1 })
    expect(from(2, -1, 'Enter')).toEqual({ row: 0, column: 0 })
    expect(from(2, 1, 'Enter')).toBeNull()
  })
  it('goes up and down with the arrows, not out of the sheet', () => {
    expect(from(1, 1, 'ArrowUp')).toEqual({ row: 0, column: 1 })
    expect(from(0, 1, 'ArrowUp')).toBeNull()
    expect(from(1, 1, 'ArrowDown')).toEqual({ row: 2, column: 1 })
    expect(from(2, 1, 'ArrowDown')).toBeNull()
  })
  it('leaves a box sideways only at the end of its text', () => {
    expect(from(0, 0, 'ArrowLeft')).toEqual({ row: 0, column: -1 })
    expect(from(0, 0, 'ArrowLeft', inside)).toBeNull()
    expect(from(0, -1, 'ArrowLeft')).toBeNull()
    expect(from(0, 0, 'ArrowRight')).toEqual({ row: 0, column: 1 })
    expect(from(0, 0, 'ArrowRight', inside)).toBeNull()
    expect(from(0, 1, 'ArrowRight')).toBeNull()
    // a box that is marked whole, as when it was just entered
    expect(from(0, 1, 'ArrowLeft', { start: 0, end: 2, length: 2 })).toBeNull()
  })
  it('leaves every other key to the box', () => {
    expect(from(0, 0, '5')).toBeNull()
    expect(from(0, 0, 'Tab')).toBeNull()
  })
})
