import { ParquetWriter } from 'hyparquet-writer'
import { rfc3339 } from '../../clock.ts'
import { cleanReadings } from '../clean-readings.ts'
import { standingNotes } from '../export-note.ts'
import type { ExportSource } from '../study-export.ts'
import { ucumOf } from '../ucum.ts'
import { PARQUET_COLUMNS, type ParquetRow } from './parquet-columns.ts'
import { PieceWriter } from './piece-writer.ts'

/** Rows held in memory, and of one row group of the file. */
const ROW_GROUP = 10_000

/**
 * Clean readings as Apache Parquet, a row group at a time. Key-value metadata say what a reader of the columns alone
 * cannot know: units with their UCUM codes, what clean means, what was left out, version and time.
 */
export async function* parquetPieces(source: ExportSource): AsyncGenerator<Uint8Array> {
  const bytes = new PieceWriter()
  const units = new Set<string>()
  const parquet = new ParquetWriter({
    writer: bytes,
    schema: [
      { name: 'readings', num_children: PARQUET_COLUMNS.length },
      ...PARQUET_COLUMNS.map(({ schema }) => schema),
    ],
    createdBy: `Tussock version ${source.version}`,
  })
  for (const rows of rowGroups(source)) {
    for (const { segment, signalUnit } of rows) {
      units.add(signalUnit)
      if (segment.calibration) units.add(segment.calibration.fitted.unit)
    }
    await parquet.write({
      columnData: PARQUET_COLUMNS.map(({ name, of }) => ({ name, data: rows.map(of) })),
      rowGroupSize: ROW_GROUP,
    })
    yield bytes.take()
  }
  parquet.kvMetadata = metadataOf(source, units)
  await parquet.finish()
  yield bytes.take()
}

function* rowGroups(source: ExportSource): Generator<ParquetRow[]> {
  const calibrations = source.store.calibrationIds()
  let group: ParquetRow[] = []
  for (const { segment, signalUnit, readings } of cleanReadings(source))
    for (const reading of readings) {
      const calibration =
        reading.calibration === null ? null : (calibrations.get(reading.calibration) ?? null)
      group.push({ reading, segment, signalUnit, calibration })
      if (group.length < ROW_GROUP) continue
      yield group
      group = []
    }
  if (group.length > 0) yield group
}

function metadataOf(source: ExportSource, units: ReadonlySet<string>): { key: string; value: string }[] {
  const { survey, version, madeAtMs, wish } = source
  const codes = [...units].filter((unit) => unit !== '').map((senml) => ({ senml, ucum: ucumOf(senml) }))
  return [
    { key: 'survey', value: survey.id },
    { key: 'title', value: survey.title },
    { key: 'software', value: `Tussock ${version}` },
    { key: 'made', value: rfc3339(madeAtMs) },
    { key: 'licence', value: wish.licence ?? 'none given' },
    { key: 'units', value: JSON.stringify(codes) },
    { key: 'unit:distance_m', value: 'm' },
    { key: 'unit:depth_cm', value: 'cm' },
    { key: 'unit:height_m', value: 'm' },
    { key: 'unit:value', value: 'see the column unit' },
    { key: 'unit:uncertainty', value: 'see the column unit; standard uncertainty, k = 1' },
    { key: 'unit:signal', value: 'see the column signal_unit' },
    { key: 'left-out', value: standingNotes(source).join(' ') },
  ]
}
