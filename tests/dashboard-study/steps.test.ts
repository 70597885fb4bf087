import { describe, expect, it } from 'vitest'
import {
  type AnimalRow,
  animalsAsCsv,
  animalTrouble,
  blankAnimal,
  nextOfCatch,
  rowsOfRecords,
} from '../../dashboard/study/animals/animal-draft.ts'
import { exportAddress, studyExports } from '../../dashboard/study/download/export-list.ts'
import { pictureAddress } from '../../dashboard/study/look/picture-address.ts'
import { pictureKinds } from '../../dashboard/study/look/picture-list.ts'
import { reportAddress } from '../../dashboard/study/report/report-address.ts'
import { stepAfter } from '../../dashboard/study/steps/step-list.ts'
import { stepStates } from '../../dashboard/study/steps/step-states.ts'
import { ExportName, studyExportQuery } from '../../hub/contract/export-api.ts'
import { pictureFiles, pictureQuery, reportQuery } from '../../hub/contract/report-api.ts'
import type { StudyJoin, StudySheet } from '../../hub/contract/study.ts'
import { studyExports as hubExports } from '../../hub/export/exports.ts'
import { readAnimalSheet, readSpeciesSheet } from '../../hub/study/read-study-sheet.ts'

async function sheetOf(csv: string): Promise<StudySheet> {
  const bytes = new TextEncoder().encode(csv)
  const table = await readSpeciesSheet({ bytes, name: 'class.csv', answers: {} }, ['Q1', 'Q2'])
  if (!('records' in table)) throw new Error(table.message)
  return {
    id: 1,
    kind: 'species',
    name: 'class.csv',
    at: '2026-06-12T10:00:00Z',
    by: null,
    answers: {},
    isRemoved: false,
    table,
    animals: null,
    trouble: null,
  }
}

const table = (rows: number) => ({ headings: ['a'], rows: Array.from({ length: rows }, () => ['x']) })
const join = (unmatched: number): StudyJoin => ({
  wide: table(2),
  long: table(2),
  unmatched: table(unmatched),
  questions: [],
  explanation: [],
})
const clean = { all: 12_700, clean: 12_345, leftOut: [], sentence: '' }

describe('the steps of the study', () => {
  it('wait for each other, and begin with readings and species', () => {
    const states = stepStates({ clean: { ...clean, all: 0, clean: 0 }, sheets: [], join: null })
    expect(states.summary).toEqual({ state: 'open', text: 'no readings yet' })
    expect(states.species.state).toBe('open')
    expect([states.join, states.test, states.report].map(({ state }) => state)).toEqual([
      'waiting',
      'waiting',
      'waiting',
    ])
  })
  it('say how much of each there is', async () => {
    const sheet = await sheetOf('Species (cover %),Q1,Q2\r\nBramble,35,12\r\nFern,1,0\r\n')
    const states = stepStates({ clean, sheets: [sheet], join: join(0) })
    expect(states.summary.text.replace(/\u202f/g, ' ')).toBe('12 345 readings clean of 12 700')
    expect(states.species).toEqual({ state: 'done', text: 'class.csv: 2 species in 2 quadrats' })
    expect(states.join).toEqual({ state: 'done', text: '2 quadrats joined, nothing left over' })
    expect(states.test.state).toBe('done')
    expect(stepStates({ clean, sheets: [sheet], join: join(1) }).join).toEqual({
      state: 'open',
      text: '2 quadrats joined, 1 entry left over',
    })
  })
  it('do not call species without a clean reading joined', async () => {
    const sheet = await sheetOf('Species (cover %),Q1,Q2\r\nBramble,35,12\r\n')
    const states = stepStates({ clean: { ...clean, clean: 0 }, sheets: [sheet], join: join(0) })
    expect([states.summary.state, states.join.state, states.test.state]).toEqual([
      'open',
      'waiting',
      'waiting',
    ])
  })
  it('say what is open about the table, or why it cannot be read', async () => {
    const sheet = await sheetOf('Species (cover %),Q1,Q2\r\nBramble,35,\r\nBrambel,,0\r\n')
    const asked = stepStates({ clean, sheets: [sheet], join: null })
    expect(asked.species).toEqual({ state: 'open', text: 'class.csv is read; 2 questions open' })
    const unread = { ...sheet, table: null, trouble: 'a PDF' }
    expect(stepStates({ clean, sheets: [unread], join: null }).species).toEqual({
      state: 'open',
      text: 'class.csv cannot be read',
    })
    expect(stepStates({ clean, sheets: [{ ...sheet, isRemoved: true }], join: null }).species.text).toMatch(
      /no table yet/,
    )
  })
  it('follow each other to the last', () => {
    expect(stepAfter('summary')?.rest).toBe('species')
    expect(stepAfter('download')).toBeNull()
  })
})

describe('animals typed in', () => {
  const beetle: AnimalRow = {
    ...blankAnimal,
    trap: 'P1',
    taxon: 'ground beetle',
    count: '4',
    method: 'pitfall trap',
    set: '2026-06-12T18:00',
    checked: '2026-06-13T18:00',
    hours: '12',
    traps: '2',
  }
  const read = async (rows: readonly AnimalRow[]) => {
    const bytes = new TextEncoder().encode(animalsAsCsv(rows))
    const animals = await readAnimalSheet({ bytes, name: 'typed.csv', answers: {} })
    if (!('records' in animals)) throw new Error(animals.message)
    return animals
  }
  it('are read by the hub’s own reader, hours by the two times', async () => {
    const { records, faults } = await read([
      beetle,
      { ...blankAnimal, trap: 'Q2', taxon: 'none', count: '0' },
    ])
    expect(faults).toEqual([])
    // 18:00 to 18:00 of the next day is 24 h
    expect(records[0]).toMatchObject({
      taxon: 'ground beetle',
      count: 4,
      station: 'P1',
      effort: { hours: 24, traps: 2 },
    })
    expect(records[1]).toMatchObject({ taxon: null, count: 0 })
  })
  it('are gone on with as they were', async () => {
    const { records } = await read([beetle])
    const again = await read(rowsOfRecords(records))
    expect(again.records).toEqual(records)
  })
  it('keep trap, method and effort for the next of the catch', () => {
    expect(nextOfCatch(beetle)).toEqual({ ...beetle, taxon: '', count: '' })
  })
  it('say what is missing', () => {
    expect(animalTrouble(beetle)).toBeNull()
    expect(animalTrouble({ ...beetle, count: '0' })).toBeNull()
    expect(animalTrouble({ ...beetle, trap: ' ' })).toMatch(/Which trap/)
    expect(animalTrouble({ ...beetle, taxon: '' })).toMatch(/Which animal/)
    for (const count of ['', '-1', '1,5', 'two'])
      expect(animalTrouble({ ...beetle, count })).toMatch(/whole number/)
    expect(animalTrouble({ ...beetle, checked: beetle.set })).toMatch(/before it was set/)
  })
})

// expected: what the hub's own contract takes
describe('addresses of pictures, report and files', () => {
  const queryOf = (address: string) => Object.fromEntries(new URL(address, 'http://hub').searchParams)
  it('ask for pictures that the hub draws', () => {
    const wish = {
      factors: ['Soil pH, 5 cm deep', 'Light'],
      species: ["Dog's mercury"],
      widthPx: 320,
      window: 'common' as const,
      isHeldBack: true,
    }
    for (const { name } of pictureKinds) {
      expect(pictureFiles).toContain(`${name}.svg`)
      const query = pictureQuery.strict().parse(queryOf(pictureAddress('a b', name, wish)))
      expect(query).toMatchObject({ width: 320, window: 'common', heldBack: 'yes' })
      expect(query.factors?.split('|')).toEqual(wish.factors)
    }
    expect(pictureAddress('a b', 'scatter', wish)).toMatch(/^\/api\/surveys\/a%20b\/pictures\/scatter\.svg\?/)
  })
  it('ask for the report with what was chosen', () => {
    const wish = {
      aim: ' Is it the light? ',
      hasVerdicts: false,
      coordinates: 'none' as const,
      window: 'all' as const,
      hydrogenIons: true,
      hasCheckPage: true,
    }
    const query = reportQuery.strict().parse(queryOf(reportAddress('s', 'pdf', wish)))
    expect(query).toMatchObject({
      aim: 'Is it the light?',
      verdicts: 'no',
      coordinates: 'none',
      hydrogenIons: 'yes',
      check: 'yes',
    })
  })
  it('ask for every file the hub makes, and call it by its ending', () => {
    expect(studyExports.map(({ name }) => name).sort()).toEqual([...ExportName.options].sort())
    for (const { name, ending } of studyExports) {
      expect(ending).toBe(hubExports[name].extension)
      const wish = {
        coordinates: 'blurred' as const,
        licence: 'CC-BY-4.0',
        window: 'all' as const,
        hydrogenIons: false,
      }
      expect(studyExportQuery.strict().parse(queryOf(exportAddress('s', name, wish)))).toMatchObject({
        licence: 'CC-BY-4.0',
      })
      expect(queryOf(exportAddress('s', name, { ...wish, licence: '' }))).not.toHaveProperty('licence')
    }
  })
})
