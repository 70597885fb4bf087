import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { parse } from 'csv-parse/sync'
import { describe, expect, test } from 'vitest'
import { exportQuery } from '../../../hub/contract/export-query.ts'
import { readingsCsv } from '../../../hub/export/readings-csv.ts'
import { ucumOf } from '../../../hub/export/ucum.ts'
// Data Package 2.0 key names: datapackage.org standard text and profiles, verified
import keys from '../../reference/table-schema-keys.json' with { type: 'json' }
import { exampleSurvey } from '../../support/example-survey.ts'
import { SmallHub } from '../../support/small-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'
import { filesOf, headingsOf, rowsOf } from './read-archive.ts'
import { exported, fillStudy } from './study-hub.ts'

interface Field {
  name: string
  type: string
  unit?: { senml: string; ucum: string | null }
}
interface Resource {
  name: string
  path: string
  bytes: number
  hash: string
  schema: { fields: Field[]; primaryKey?: string[]; missingValues: string[] }
}

const TABLES = [
  'readings-clean',
  'readings-excluded',
  'summary',
  'joined',
  'joined-long',
  'unmatched',
  'species',
  'spots',
  'decisions',
  'calibrations',
]

async function tables(wish: Record<string, string> = {}) {
  const folder = temporaryFolder()
  fillStudy(folder)
  const files = filesOf(await exported(folder, 'tables', wish))
  const described = JSON.parse(files['datapackage.json']!) as { resources: Resource[] } & Record<
    string,
    unknown
  >
  return { folder, files, described }
}

/** Does a cell keep to the type that its table says of it? */
function isOfType(text: string, type: string): boolean {
  if (type === 'number') return text !== '' && Number.isFinite(Number(text))
  if (type === 'integer') return /^-?\d+$/.test(text)
  if (type === 'boolean') return text === 'true' || text === 'false'
  if (type === 'datetime') return /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$/.test(text)
  return type === 'string'
}

describe('the tables', () => {
  test('are all there, and clean and excluded readings together are all of the survey', async () => {
    const { folder, files } = await tables()
    for (const name of TABLES) expect(Object.keys(files)).toContain(`${name}.csv`)
    const hub = new SmallHub(folder)
    const query = { survey: 'example', method: 'shown' }
    const lines = (set: string) =>
      [...readingsCsv(hub.reader, hub.keeper.timelines, exportQuery.parse({ ...query, set }))].join('')
    // the same bytes as the download of readings
    expect(files['readings-clean.csv']).toBe(lines('clean'))
    expect(files['readings-excluded.csv']).toBe(lines('excluded'))
    const [clean, excluded] = ['readings-clean.csv', 'readings-excluded.csv'].map((path) =>
      rowsOf(files[path]),
    )
    expect(clean!.length + excluded!.length).toBe(120 * 3 + 1 + 30)
    expect(files['README.txt']).toContain(`Of 391 readings ${clean!.length} are clean`)
    hub.close()
  })

  test('each keeps to what its Data Package says: headings, types, keys, bytes and hash', async () => {
    const { files, described } = await tables()
    expect(described.resources.map(({ name }) => name)).toEqual(TABLES)
    for (const { path, bytes, hash, schema } of described.resources) {
      const text = files[path]!
      expect(Buffer.byteLength(text)).toBe(bytes)
      expect(`sha256:${createHash('sha256').update(text).digest('hex')}`).toBe(hash)
      expect(headingsOf(text)).toEqual(schema.fields.map(({ name }) => name))
      const rows = rowsOf(text)
      for (const row of rows)
        for (const { name, type } of schema.fields)
          if (row[name] !== '') expect([path, name, row[name], isOfType(row[name]!, type)]).toContain(true)
      if (!schema.primaryKey) continue
      const named = rows.map((row) => JSON.stringify(schema.primaryKey!.map((key) => row[key])))
      expect(new Set(named).size).toBe(rows.length)
      for (const row of rows) for (const key of schema.primaryKey) expect(row[key]).not.toBe('')
    }
  })

  test('the Data Package uses the keys of the standard, and of our own only the unit of a field', async () => {
    const { described } = await tables({ licence: 'CC-BY-4.0' })
    expect(keys.package).toEqual(expect.arrayContaining(Object.keys(described)))
    expect(described['$schema']).toBe(keys.schema_urls[0])
    for (const resource of described.resources) {
      expect(keys.resource).toEqual(expect.arrayContaining(Object.keys(resource)))
      expect(keys.table_schema).toEqual(expect.arrayContaining(Object.keys(resource.schema)))
      for (const field of resource.schema.fields) {
        expect([...keys.field, 'unit']).toEqual(expect.arrayContaining(Object.keys(field)))
        expect(keys.field_types).toContain(field.type)
      }
    }
    expect(described['licenses']).toMatchObject([{ name: 'CC-BY-4.0' }])
  })

  test('CSV on the Web describes the same columns, each with a name that a URI template takes', async () => {
    const { files } = await tables({ licence: 'CC0-1.0' })
    const group = JSON.parse(files['csvw-metadata.json']!)
    // W3C Tabular metadata, 17 December 2015: context, tables, url, tableSchema, columns; from memory
    expect(group['@context'][0]).toBe('http://www.w3.org/ns/csvw')
    expect(group['dc:license']).toEqual({
      '@id': 'https://creativecommons.org/publicdomain/zero/1.0/legalcode',
    })
    expect(group.tables.map(({ url }: { url: string }) => url)).toEqual(TABLES.map((name) => `${name}.csv`))
    for (const { url, tableSchema } of group.tables) {
      const titles = tableSchema.columns.map(
        (column: { titles: string | string[] }) => [column.titles].flat()[0],
      )
      expect(titles).toEqual(headingsOf(files[url]))
      const names: string[] = tableSchema.columns.map(({ name }: { name: string }) => name)
      expect(new Set(names).size).toBe(names.length)
      // RFC 6570 §2.3: varchar is a letter, digit, underscore or an escape; a dot may stand between
      for (const name of names) expect(name).toMatch(/^(?:[A-Za-z0-9_.]|%[0-9A-Fa-f]{2})+$/)
      for (const key of tableSchema.primaryKey ?? []) expect(names).toContain(key)
    }
  })

  test('without a table of species those of the join are left out, and the note says so', async () => {
    const folder = temporaryFolder()
    const hub = new SmallHub(folder)
    hub.keeper.save(exampleSurvey(), 'test')
    hub.close()
    const files = filesOf(await exported(folder, 'tables'))
    expect(files['joined.csv']).toBeUndefined()
    expect(files['README.txt']).toContain('There is no table of species yet')
    expect(files['README.txt']).toContain('No licence has been given')
    expect(JSON.parse(files['datapackage.json']!).licenses).toBeUndefined()
  })

  test('what people wrote never runs as a formula', async () => {
    const { files } = await tables()
    const note = rowsOf(files['calibrations.csv']).find(({ calibration }) => calibration === 'temp-cal-2')![
      'note'
    ]
    expect(note).toBe('\'=1+1, with a comma and “quotes"')
    expect(rowsOf(files['species.csv']).map((row) => row['as_written'])).toContain("'+")
  })
})

describe('ucumOf', () => {
  // tests/reference/units.csv: RFC 8428 §12.1 and UCUM, rows verified as marked there
  const units: Record<string, string>[] = parse(
    readFileSync(new URL('../../reference/units.csv', import.meta.url), 'utf8'),
    { columns: true },
  )
  test.each(['pH', 'lx', 'Cel', '/', 'm/s', 'V', 'mV', 'Hz', 'W/m2'])('gives the code of %s', (senml) => {
    expect(ucumOf(senml)).toBe(units.find((row) => row['senml'] === senml)!['ucum'])
  })
  test('knows none for a unit of the class’s own', () => {
    expect(ucumOf('bananas')).toBeNull()
  })
})
