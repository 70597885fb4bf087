import { strToU8, zipSync } from 'fflate'
import { describe, expect, test } from 'vitest'
import { isRefusal } from '../../../../calibration/index.ts'
import { readSheet, SHEET_MAX_BYTES } from '../../../../hub/study/species/read-sheet.ts'
import { readSeparated } from '../../../../hub/study/species/separated-text.ts'
import { cellAddress } from '../../../../hub/study/species/sheet-grid.ts'
import { UNPACKED_MAX_BYTES } from '../../../../hub/study/species/workbook-parts.ts'
import csvCases from '../../../reference/csv-rfc4180.json' with { type: 'json' }
import { referenceBytes, refusalOf, sheetOf } from './sheet.ts'

const textsOf = (grid: { rows: readonly (readonly { text: string }[])[] }) =>
  grid.rows.map((row) => row.map(({ text }) => text))

describe('CSV by RFC 4180', () => {
  // tests/reference/csv-rfc4180.json: rules of section 2
  test.each(csvCases.cases)('$about', ({ text, records }) => {
    expect(readSeparated(text)).toMatchObject({ rows: records })
  })
  // the same file, malformed cases; uneven rows are read, and extra cells are named later by their address
  test.each(csvCases.malformed.filter(({ about }) => about !== 'uneven field counts'))(
    'refused: $about',
    ({ text }) => {
      expect(readSeparated(text)).toMatchObject({
        code: 'E_SHEET_DAMAGED',
        message: expect.stringMatching(/near line 1:|never closed/),
      })
    },
  )
  test('rows of unequal length are filled up with blanks, and keep their addresses', async () => {
    const { grid } = await sheetOf('a,b\r\n1,2,3\r\n\r\n4\r\n')
    expect(textsOf(grid)).toEqual([
      ['a', 'b', ''],
      ['1', '2', '3'],
      ['', '', ''],
      ['4', '', ''],
    ])
  })
})

describe('separator and decimal comma', () => {
  // common practice, no source: spreadsheets write semicolons where the decimal sign is a comma
  test.each([
    ['Quadrat,Ivy\nQ1,12\n', 'comma'],
    ['Quadrat;Ivy;Moss\nQ1;12,5;3,4\nQ2;0,5;1,0\n', 'semicolon'],
    ['Quadrat\tIvy\nQ1\t12,5\n', 'tab'],
    ['mark,touched\n0.5,bramble;ivy\n1.0,ivy\n', 'comma'],
    ['Quadrat,"Ivy; all kinds"\nQ1,12\n', 'comma'],
  ])('%j is divided by %s', (text, separator) => {
    expect(readSeparated(text)).toMatchObject({ separator })
  })
  test('decimal commas are said', async () => {
    expect((await sheetOf('Quadrat;Ivy\nQ1;12,5\n')).notes.join(' ')).toMatch(
      /semicolons.*1 number has a decimal comma/,
    )
  })
})

describe('encodings', () => {
  const text = 'Quadrat,Høyde µ\r\nQ1,12\r\n'
  const utf16 = (littleEndian: boolean, mark: boolean) => {
    const units = [...(mark ? '\ufeff' : ''), ...text].map((letter) => letter.charCodeAt(0))
    return Uint8Array.from(
      units.flatMap((unit) => (littleEndian ? [unit & 255, unit >> 8] : [unit >> 8, unit & 255])),
    )
  }
  // ø is F8 and µ B5 in ISO 8859-1 and Windows-1252; byte order marks by the Unicode Standard, 23.8
  test.each([
    ['UTF-8', strToU8(text)],
    ['UTF-8', strToU8(`\ufeff${text}`)],
    ['UTF-16 LE', utf16(true, true)],
    ['UTF-16 BE', utf16(false, true)],
    ['UTF-16 LE', utf16(true, false)],
    ['UTF-16 BE', utf16(false, false)],
    ['Windows-1252', Uint8Array.from([...text].map((letter) => letter.charCodeAt(0)))],
  ])('%s is read, and said', async (encoding, bytes) => {
    const sheet = await sheetOf(bytes)
    expect(textsOf(sheet.grid)[0]).toEqual(['Quadrat', 'Høyde µ'])
    expect(sheet.notes[0]).toContain(encoding)
  })
})

describe('workbooks written by other programs', () => {
  // species-*.xlsx by openpyxl 3.1.5, species-*.ods by odfpy 1.4.2: see tests/reference/README.md
  test('.xlsx: merged headings, saved results of formulas, an empty second sheet', async () => {
    const { grid, sheetName, notes } = await sheetOf(referenceBytes('species-two-headings.xlsx'), 'x.xlsx')
    expect(sheetName).toBe('Cover')
    expect(textsOf(grid)[2]).toEqual(['Species', 'Q1', 'Q2', 'Q3', 'Q4'])
    expect(grid.merges).toContainEqual({ fromRow: 1, fromColumn: 1, toRow: 1, toColumn: 2 })
    expect(grid.rows[7]![1]).toEqual({ kind: 'formula', text: '95' })
    expect(notes.join(' ')).toContain('3 cells are formulas (B8, C8, D8): the result last saved was used.')
  })
  test('.xlsx with several sheets is asked about; percent formats, dates and unsaved formulas are told apart', async () => {
    const bytes = referenceBytes('species-two-sheets.xlsx')
    expect(await readSheet(bytes, 'x.xlsx')).toEqual({ sheetNames: ['Group A', 'Group B'] })
    const { grid, notes } = await sheetOf(bytes, 'x.xlsx', ' group a')
    expect(grid.rows.slice(1).map((row) => row[1]!.text)).toEqual(['35', '12.5', '0'])
    expect(notes.join(' ')).toContain('3 cells are shown as a percentage')
    expect(grid.rows[2]![2]).toEqual({ kind: 'formula', text: '' })
    expect(grid.rows[3]![2]).toEqual({ kind: 'date', text: '2026-02-01' })
    expect(await refusalOf(bytes, 'x.xlsx', 'Group C')).toMatchObject({
      code: 'E_SHEET_UNKNOWN',
      message: expect.stringContaining('Group A, Group B'),
    })
  })
  test('.ods: merged headings, a percentage, a saved formula', async () => {
    const { grid, notes } = await sheetOf(referenceBytes('species-two-headings.ods'), 'x.ods')
    expect(textsOf(grid)).toEqual([
      ['', 'Shade', '', 'Open', ''],
      ['Species', 'Q1', 'Q2', 'Q3', 'Q4'],
      ['Ivy', '35', '12', '0', ''],
      ['Bramble', '+', '5', '20', ''],
      ['Grass', '0', '8', '71', ''],
    ])
    expect(notes.join(' ')).toMatch(/1 cell is shown as a percentage.*1 cell is a formula \(C5\)/)
  })
})

describe('refused, with what to do', () => {
  const bomb = zipSync({ 'xl/workbook.xml': new Uint8Array(UNPACKED_MAX_BYTES + 1) }, { level: 9 })
  test.each([
    ['an empty file', '', 'E_SHEET_EMPTY', /Type the table/],
    ['blank lines only', '\r\n,,\r\n', 'E_SHEET_EMPTY', /is empty/],
    ['headings only', 'Quadrat,Ivy\r\n', 'E_SHEET_EMPTY', /headings only/],
    ['an older workbook', Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0, 0xa1), 'E_SHEET_KIND', /save it as \.xlsx/],
    ['a picture of a phone', 'xxxxftypheic', 'E_SHEET_KIND', /a picture/],
    ['a PDF', '%PDF-1.7 …', 'E_SHEET_KIND', /a PDF/],
    ['a web page', '<!doctype html><table>', 'E_SHEET_KIND', /save it as/],
    ['bytes of no kind', Uint8Array.of(65, 0, 1, 2, 3, 7, 66, 67), 'E_SHEET_KIND', /Save it as/],
    ['a zip file without a workbook', zipSync({ 'a.txt': strToU8('a') }), 'E_SHEET_KIND', /no workbook/],
    [
      'a workbook cut short',
      referenceBytes('species-two-sheets.xlsx').subarray(0, 3000),
      'E_SHEET_DAMAGED',
      /damaged/,
    ],
    [
      'a workbook with nothing readable in it',
      zipSync({ 'xl/workbook.xml': strToU8('<no') }),
      'E_SHEET_DAMAGED',
      /Save it again/,
    ],
    ['a small file that unpacks to more than 64 MB', bomb, 'E_SHEET_SIZE', /too much for a table/],
  ])('%s', async (_, content, code, advice) => {
    expect(await refusalOf(content)).toMatchObject({ code, message: expect.stringMatching(advice) })
  })
  test('10 MB is read, one byte more is not', async () => {
    const bytes = new Uint8Array(SHEET_MAX_BYTES + 1).fill(0x20)
    bytes.set(strToU8('Quadrat,Ivy\nQ1,12,'))
    expect(isRefusal(await readSheet(bytes.subarray(0, SHEET_MAX_BYTES), 'big.csv'))).toBe(false)
    expect(await refusalOf(bytes, 'big.csv')).toMatchObject({
      code: 'E_SHEET_SIZE',
      message: expect.stringContaining('10 MB'),
    })
  })
  test.each([
    ['line ends', '\n'.repeat(60_000)],
    ['columns', `a,b\n1,2\n${','.repeat(400_000)}\n`],
  ])('a table of nothing but %s', async (_, text) => {
    expect(await refusalOf(text)).toMatchObject({
      code: 'E_SHEET_SIZE',
      message: expect.stringContaining('Copy the table'),
    })
  })
  test('a cell with more text than anyone types, by its place', async () => {
    expect(await refusalOf(`quadrat,ivy\nQ1,3\nQ2,${'x'.repeat(10_001)}\n`)).toMatchObject({
      code: 'E_SHEET_SIZE',
      message: expect.stringContaining('Cell B3'),
    })
  })
  test('a part that is larger than its directory says is not unpacked beyond that', async () => {
    const packed = zipSync({ 'xl/workbook.xml': new Uint8Array(1_000_000) }, { level: 9 })
    const view = new DataView(packed.buffer, packed.byteOffset)
    const directory = view.getUint32(packed.length - 22 + 16, true) // APPNOTE.TXT 4.3.16: offset of the central directory
    view.setUint32(directory + 24, 10, true) // 4.3.12: uncompressed size
    expect((await refusalOf(packed)).code).toBe('E_SHEET_DAMAGED')
  })
})

test('cells are named as a spreadsheet names them', () => {
  expect([
    cellAddress(6, 1),
    cellAddress(0, 0),
    cellAddress(0, 25),
    cellAddress(0, 26),
    cellAddress(9, 701),
    cellAddress(9, 702),
  ]).toEqual(['B7', 'A1', 'Z1', 'AA1', 'ZZ10', 'AAA10'])
})
