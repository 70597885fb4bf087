import { describe, expect, test } from 'vitest'
import { studyExportQuery } from '../../../hub/contract/export-api.ts'
import { StoreSnapshot } from '../../../hub/export/store-snapshot.ts'
import { readingsOfSheet } from '../../../hub/export/workbook/workbook-readings.ts'
import { Study } from '../../../hub/study/study.ts'
import { Timelines } from '../../../hub/survey/timeline.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'
import { filesOf, rowsOf } from './read-archive.ts'
import { exported, fillStudy, madeAt } from './study-hub.ts'

type Sheet = { kind: string | undefined; text: string }[][]

/** Cells of the sheets of a workbook from its XML (ECMA-376 part 1, §18.3): type and text, row by row. */
function sheetsOf(workbook: Uint8Array): Map<string, Sheet> {
  const files = filesOf(workbook)
  const plain = (xml: string) =>
    xml
      .replace(/&lt;/g, '<')
      .replace(/&gt;/g, '>')
      .replace(/&quot;/g, '"')
      .replace(/&apos;/g, "'")
      .replace(/&amp;/g, '&')
  const shared = [...files['xl/sharedStrings.xml']!.matchAll(/<si>([\s\S]*?)<\/si>/g)].map(([, entry]) =>
    plain(/<t[^>/]*>([\s\S]*?)<\/t>/.exec(entry!)?.[1] ?? ''),
  )
  const names = [...files['xl/workbook.xml']!.matchAll(/<sheet name="([^"]*)"/g)].map(([, name]) => name!)
  return new Map(
    names.map((name, index) => {
      const xml = files[`xl/worksheets/sheet${index + 1}.xml`]!
      const rows = [...xml.matchAll(/<row [^>]*>([\s\S]*?)<\/row>/g)].map(([, cells]) =>
        [...cells!.matchAll(/<c r="[A-Z]+\d+"([^>]*?)(?:\/>|>([\s\S]*?)<\/c>)/g)].map(
          ([, attributes, inner]) => {
            const kind = /t="(\w+)"/.exec(attributes!)?.[1]
            const value = /<v>([^<]*)<\/v>/.exec(inner ?? '')?.[1] ?? ''
            expect(inner ?? '').not.toContain('<f')
            return { kind, text: kind === 's' ? shared[Number(value)]! : value }
          },
        ),
      )
      return [name, rows]
    }),
  )
}

async function workbook(): Promise<{ folder: string; sheets: Map<string, Sheet> }> {
  const folder = temporaryFolder()
  fillStudy(folder)
  return { folder, sheets: sheetsOf(await exported(folder, 'workbook')) }
}

describe('the workbook', () => {
  test('has a sheet for each table, and the first says what they are', async () => {
    const { sheets } = await workbook()
    expect([...sheets.keys()]).toEqual([
      'Read me',
      'Summary',
      'Joined',
      'Species',
      'Readings',
      'Left out',
      'Calibrations',
    ])
    const notes = sheets.get('Read me')!.map(([cell]) => cell!.text)
    for (const word of ['Summary:', 'Readings: every clean reading.', 'Clean:', 'Beware', 'Of 391 readings'])
      expect([word, notes.some((note) => note.startsWith(word))]).toEqual([word, true])
  })

  test('numbers are numbers, times are text in UTC and at the site, formulas are only text', async () => {
    const { folder, sheets } = await workbook()
    const [headings, first] = sheets.get('Readings')!
    const cell = (name: string) => first![headings!.findIndex(({ text }) => text === name)]!
    const [csv] = rowsOf(filesOf(await exported(folder, 'tables'))['readings-clean.csv'])
    expect(cell('value').kind === undefined || cell('value').kind === 'n').toBe(true)
    expect(Number(Number(cell('value').text).toPrecision(9))).toBe(Number(csv!['value']))
    expect(cell('time (UTC)')).toEqual({ kind: 's', text: '2026-06-12T09:00:00.000Z' })
    expect(cell('time at the site').text).toBe('2026-06-12 10:00:00') // British Summer Time
    const notes = sheets.get('Calibrations')!.flat()
    expect(notes.map(({ text }) => text)).toContain('\'=1+1, with a comma and “quotes"')
  })

  test('reasons of what was left out, and clean readings, add up to all', async () => {
    const { sheets } = await workbook()
    const leftOut = sheets.get('Left out')!.slice(1)
    const sum = leftOut.reduce((total, [, n]) => total + Number(n!.text), 0)
    expect(sum + sheets.get('Readings')!.length - 1).toBe(391)
  })

  test('where there are too many readings each row is a mean, and of how many it says', async () => {
    const folder = temporaryFolder()
    fillStudy(folder)
    const store = new StoreSnapshot(folder)
    const timelines = new Timelines(store.surveys(), store.spots())
    const [survey] = timelines.surveys
    const source = {
      ...{
        store,
        timelines,
        survey: survey!,
        wish: studyExportQuery.parse({}),
        version: '0',
        madeAtMs: madeAt,
      },
      study: new Study(store, timelines, survey!),
    }
    const every = readingsOfSheet(source, 323)
    const means = readingsOfSheet(source, 323, 100)
    expect([every.stepMs, every.rows.length, means.stepMs]).toEqual([null, 323, 60_000])
    expect(means.rows.reduce((total, row) => total + Number(row.at(-1)), 0)).toBe(323)
    const valuesOf = (rows: typeof every.rows, minute: string) =>
      rows
        .filter((row) => row[10] === 'WIND-1' && String(row[0]).startsWith(minute))
        .map((row) => Number(row[6]))
    for (const minute of ['2026-06-12T09:00', '2026-06-12T09:01']) {
      const values = valuesOf(every.rows, minute)
      const mean = values.reduce((sum, value) => sum + value, 0) / values.length
      expect(valuesOf(means.rows, minute)[0]).toBeCloseTo(mean, 12)
    }
    store.close()
  })
})
