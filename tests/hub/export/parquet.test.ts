import { type FileMetaData, parquetMetadata, parquetReadObjects } from 'hyparquet'
import { describe, expect, test } from 'vitest'
import { studyExportQuery } from '../../../hub/contract/export-api.ts'
import { openExport } from '../../../hub/export/open-export.ts'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'
import { SmallHub } from '../../support/small-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'
import { filesOf, rowsOf } from './read-archive.ts'
import { exported, fillStudy } from './study-hub.ts'

function asBuffer(bytes: Uint8Array): ArrayBuffer {
  return bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length) as ArrayBuffer
}

function keysOf(metadata: FileMetaData): Record<string, string | undefined> {
  return Object.fromEntries((metadata.key_value_metadata ?? []).map(({ key, value }) => [key, value]))
}

describe('clean readings as Parquet', () => {
  test('read back with their types they are those of the download', async () => {
    const folder = temporaryFolder()
    fillStudy(folder)
    const file = asBuffer(await exported(folder, 'parquet'))
    const rows = await parquetReadObjects({ file })
    const csv = rowsOf(filesOf(await exported(folder, 'tables'))['readings-clean.csv'])
    expect(rows).toHaveLength(csv.length)
    for (const [index, row] of rows.entries()) {
      const written = csv[index]!
      expect((row['time'] as Date).toISOString()).toBe(written['time'])
      // the download has nine significant digits
      expect(Number((row['value'] as number).toPrecision(9))).toBe(Number(written['value']))
      for (const name of ['quadrat', 'quantity', 'unit', 'probe', 'calibration', 'signal_unit', 'way'])
        expect(row[name] ?? '').toBe(written[name])
      for (const name of ['distance_m', 'depth_cm', 'height_m', 'flag'])
        expect(String(row[name] ?? '')).toBe(written[name])
    }
  })

  test('times are timestamps, text has a dictionary, and metadata tell units and what was left out', async () => {
    const folder = temporaryFolder()
    fillStudy(folder)
    const metadata = parquetMetadata(asBuffer(await exported(folder, 'parquet', { licence: 'CC0-1.0' })))
    expect(metadata.schema[1]).toMatchObject({
      name: 'time',
      logical_type: { type: 'TIMESTAMP', isAdjustedToUTC: true, unit: 'MILLIS' },
    })
    const quadrats = metadata.row_groups[0]!.columns.find(
      ({ meta_data }) => meta_data?.path_in_schema[0] === 'quadrat',
    )
    expect(quadrats?.meta_data?.encodings).toContain('RLE_DICTIONARY')
    const keys = keysOf(metadata)
    expect(keys).toMatchObject({ survey: 'example', software: 'Tussock 0.1.0', licence: 'CC0-1.0' })
    expect(JSON.parse(keys['units']!)).toContainEqual({ senml: 'pH', ucum: '[pH]' })
    expect(keys['left-out']).toMatch(/^Of 391 readings \d+ are clean/)
  })

  test('is written a row group at a time', async () => {
    const folder = temporaryFolder()
    const hub = new SmallHub(folder)
    const survey = exampleSurvey()
    for (const placement of survey.placements) placement.from = '2026-01-01T00:00:00Z'
    for (const calibration of survey.calibrations) calibration.validFrom = '2026-01-01T00:00:00Z'
    hub.keeper.save(survey, 'test')
    for (let batch = 0; batch < 60; batch++)
      hub.send(
        nineOClock + batch * 1_000_000,
        ...Array.from({ length: 1000 }, (_, k) => [
          { n: 'sedge-1/temperature', u: 'Cel', v: 12 + (k % 7) / 16, t: k - 1000 },
        ]),
      )
    hub.close()
    const facts = { version: '0', nowMs: () => nineOClock }
    const wish = studyExportQuery.parse({})
    const { pieces, close } = await openExport(folder, 'example', 'parquet', wish, facts)
    const parts: Uint8Array[] = []
    for await (const piece of pieces) parts.push(piece)
    close()
    const metadata = parquetMetadata(asBuffer(Buffer.concat(parts)))
    expect(metadata.row_groups.map(({ num_rows }) => Number(num_rows))).toEqual(Array(6).fill(10_000))
    expect(parts).toHaveLength(7)
  })

  test('of a survey without readings it is an empty table', async () => {
    const folder = temporaryFolder()
    const hub = new SmallHub(folder)
    hub.keeper.save(exampleSurvey(), 'test')
    hub.close()
    const file = asBuffer(await exported(folder, 'parquet'))
    expect(await parquetReadObjects({ file })).toEqual([])
    expect(parquetMetadata(file).schema).toHaveLength(18)
  })
})
