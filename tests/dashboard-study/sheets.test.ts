import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { addressAt, placeOfCell } from '../../dashboard/study/species/cell-address.ts'
import { csvLine } from '../../dashboard/study/species/csv-line.ts'
import { nearSpellings } from '../../dashboard/study/species/near-spellings.ts'
import { pastedAsCsv } from '../../dashboard/study/species/pasted-table.ts'
import { sheetPreview } from '../../dashboard/study/species/sheet-preview.ts'
import { givenAnswers, openQuestions } from '../../dashboard/study/species/sheet-questions.ts'
import { speciesInUse } from '../../dashboard/study/species/species-in-use.ts'
import type { SpeciesAnswers, SpeciesTable } from '../../hub/contract/species.ts'
import type { StudySheet } from '../../hub/contract/study.ts'
import { readSpeciesSheet } from '../../hub/study/read-study-sheet.ts'
import { readSeparated } from '../../hub/study/species/separated-text.ts'

async function readSheet(csv: string, answers: SpeciesAnswers = {}): Promise<SpeciesTable> {
  const bytes = new TextEncoder().encode(csv)
  const table = await readSpeciesSheet({ bytes, name: 'class.csv', answers }, ['Q1', 'Q2', 'Q3'])
  if (!('records' in table)) throw new Error(table.message)
  return table
}

const MESSY =
  'Cover of plants\r\nSpecies cover (%);q1;Q 2;Q3\r\nBramble;35;12,5;+\r\nBrambel;1;;110\r\nbare ground;5;0;0\r\n'

describe('cell addresses', () => {
  it('are those of a spreadsheet', () => {
    // Excel and LibreOffice: column 27 is AA, 703 is AAA (common practice, no source)
    expect(placeOfCell('B7')).toEqual({ row: 6, column: 1 })
    expect(placeOfCell('AA1')).toEqual({ row: 0, column: 26 })
    expect(addressAt({ row: 0, column: 702 })).toBe('AAA1')
    for (const wrong of ['', '7', 'b7', 'B0', 'B07']) expect(placeOfCell(wrong)).toBeNull()
  })
  it('come back as they were', () => {
    const place = fc.record({ row: fc.nat(60_000), column: fc.nat(16_000) })
    fc.assert(
      fc.property(place, (at) => {
        expect(placeOfCell(addressAt(at))).toEqual(at)
      }),
    )
  })
})

describe('pastedAsCsv', () => {
  it('turns tabs into CSV and keeps commas, quotation marks and line ends within cells', () => {
    // what spreadsheets put on the clipboard (common practice, no source)
    expect(pastedAsCsv('Species\tQ1\tQ2\nBramble\t12,5\t\n"a ""b""\nc"\t+\t0')).toBe(
      'Species,Q1,Q2\r\nBramble,"12,5",\r\n"a ""b""\nc",+,0\r\n',
    )
  })
  it('leaves the text of a file as it is', () => {
    expect(pastedAsCsv(MESSY)).toBe(MESSY)
  })
  it('takes CR LF, CR, and a last row with an empty last cell', () => {
    expect(pastedAsCsv('a\tb\r\n1\t2\r\n')).toBe('a,b\r\n1,2\r\n')
    expect(pastedAsCsv('a\tb\r1\t')).toBe('a,b\r\n1,\r\n')
  })
  it('is read by the hub’s reader as the cells that were copied', () => {
    const letter = fc.constantFrom('a', ',', '"', ' ', '+', 'é', '5')
    const cell = fc.string({ unit: letter, minLength: 1, maxLength: 5 }).filter((text) => text.trim() !== '')
    const table = fc.array(fc.tuple(cell, cell, cell), { minLength: 2, maxLength: 4 })
    const copied = (text: string) => (/["\t\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text)
    fc.assert(
      fc.property(table, (rows) => {
        const pasted = rows.map((row) => row.map(copied).join('\t')).join('\n')
        const read = readSeparated(pastedAsCsv(pasted))
        if (!('rows' in read)) throw new Error(read.message)
        expect(read.rows).toEqual(rows)
      }),
    )
  })
})

describe('csvLine', () => {
  it('quotes by RFC 4180 and puts no apostrophe before a trace', () => {
    expect(csvLine(['+', '-', 'a"b', '1,5', 'x;y'])).toBe('+,-,"a""b","1,5","x;y"\r\n')
  })
})

describe('sheetPreview', () => {
  it('puts every text at its own address and marks what is doubtful', async () => {
    const preview = sheetPreview(await readSheet(MESSY))!
    expect(preview.columns).toEqual([0, 1, 2, 3])
    const row = (number: number) => preview.rows.find((each) => each.number === number)!.cells
    expect(row(2).map((cell) => cell?.text)).toEqual([undefined, 'q1', 'Q 2', 'Q3'])
    expect(row(3).map((cell) => cell?.standing)).toEqual(['label', 'read', 'read', 'repaired'])
    expect(row(4).map((cell) => cell?.standing)).toEqual(['label', 'read', 'blank', 'fault'])
    expect(row(4)[3]?.note).toMatch(/100 %/)
    expect(row(5).map((cell) => cell?.text)).toEqual(['bare ground', '5', '0', '0'])
  })
  it('shows a list with its labels on every row', async () => {
    const preview = sheetPreview(
      await readSheet('quadrat,species,cover\r\nQ1,Moss,5\r\nQ1,Fern,7\r\nQ2,Moss,0\r\n'),
    )!
    expect(preview.rows.map(({ cells }) => cells.map((cell) => cell?.text))).toEqual([
      ['Q1', 'Moss', '5'],
      ['Q1', 'Fern', '7'],
      ['Q2', 'Moss', '0'],
    ])
  })
  it('says how many rows it does not show, and is null where nothing was read', async () => {
    const rows = Array.from({ length: 70 }, (_, place) => `Species ${'abcdefgh'[place % 8]}${place},1,2,3`)
    const preview = sheetPreview(await readSheet(`Species,Q1,Q2,Q3\r\n${rows.join('\r\n')}\r\n`))!
    expect(preview.rows.length + preview.hiddenRows).toBe(71)
    expect(preview.hiddenRows).toBe(11)
    const table = await readSheet(MESSY)
    expect(
      sheetPreview({
        ...table,
        quadrats: [],
        taxa: [],
        records: [],
        ground: [],
        notRecorded: [],
        repairs: [],
        faults: [],
      }),
    ).toBeNull()
  })
})

describe('openQuestions', () => {
  it('asks what is open once each: of the table, of the labels, of spellings', async () => {
    const table = await readSheet(MESSY)
    const label = {
      id: 'confirm:Q1O',
      text: '“Q1O” looks like Q10. Is it?',
      choices: [{ value: 'Q10', text: 'yes' }],
      answer: null,
    }
    const open = openQuestions(table, [...table.questions, label], {})
    expect(open.map(({ id }) => id)).toEqual(['blank', 'faults', 'confirm:Q1O', 'same:Brambel'])
    expect(open[2]!.choices).toEqual([{ text: 'yes', answers: { 'confirm:Q1O': 'Q10' } }])
  })
  it('merges spellings whichever way they are answered, or keeps them apart for good', async () => {
    const [, , spelling] = openQuestions(await readSheet(MESSY), [], {})
    const [first, second, apart] = spelling!.choices.map(({ answers }) => answers)
    const names = async (answers: SpeciesAnswers) =>
      (await readSheet(MESSY, answers)).taxa.map(({ name }) => name)
    expect(await names(first!)).toEqual(['Bramble'])
    expect(await names(second!)).toEqual(['Brambel'])
    expect(await names(apart!)).toEqual(['Bramble', 'Brambel'])
    const still = openQuestions(await readSheet(MESSY, apart!), [], apart!)
    expect(still.map(({ id }) => id)).not.toContain('same:Brambel')
  })
  it('finds spellings in the sentence the hub says', async () => {
    expect(nearSpellings((await readSheet(MESSY)).notes)).toEqual([['Bramble', 'Brambel']])
  })
})

describe('givenAnswers', () => {
  it('says each answer in the words of its question, or its own', async () => {
    const answers = { blank: 'absent', 'confirm:Q1O': 'Q10', 'same:Moss': 'Moss', trace: '1' }
    const given = givenAnswers(answers, (await readSheet(MESSY, answers)).questions)
    expect(given.map(({ text }) => text)).toEqual([
      expect.stringMatching(/blank.*looked for, and not there/),
      '“Q1O” is Q10.',
      '“Moss” is a species of its own.',
      'A trace (+) stands as 1 %.',
    ])
  })
})

describe('speciesInUse', () => {
  it('is the newest of species that is not left out and can be read', async () => {
    const table = await readSheet(MESSY)
    const sheet = (id: number, change: Partial<StudySheet>): StudySheet => ({
      id,
      kind: 'species',
      name: `${id}.csv`,
      at: '2026-06-12T10:00:00Z',
      by: null,
      answers: {},
      isRemoved: false,
      table,
      animals: null,
      trouble: null,
      ...change,
    })
    const sheets = [
      sheet(5, { kind: 'animals', table: null }),
      sheet(4, { table: null, trouble: 'a PDF' }),
      sheet(3, { isRemoved: true }),
      sheet(2, {}),
      sheet(1, {}),
    ]
    expect(speciesInUse(sheets)?.id).toBe(2)
    expect(speciesInUse([])).toBeUndefined()
  })
})
