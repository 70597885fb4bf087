import type { ParquetWriter } from 'hyparquet-writer'
import type { ReadingRow } from '../../store/store.ts'
import type { Segment } from '../../survey/timeline.ts'

type SchemaElement = ConstructorParameters<typeof ParquetWriter>[0]['schema'][number]

/** What a row is made of. */
export interface ParquetRow {
  reading: ReadingRow & { value: number }
  segment: Segment
  signalUnit: string
  calibration: string | null
}

type Cell = string | number | Date | undefined

export interface ParquetColumn {
  name: string
  schema: SchemaElement
  of(row: ParquetRow): Cell
}

const text = (name: string, of: (row: ParquetRow) => string | undefined): ParquetColumn => ({
  name,
  schema: {
    name,
    type: 'BYTE_ARRAY',
    converted_type: 'UTF8',
    logical_type: { type: 'STRING' },
    repetition_type: 'OPTIONAL',
  },
  of,
})
const number = (name: string, of: (row: ParquetRow) => number | undefined): ParquetColumn => ({
  name,
  schema: { name, type: 'DOUBLE', repetition_type: 'OPTIONAL' },
  of,
})

/** The columns of the download of clean readings, typed; times are UTC, milliseconds. */
export const PARQUET_COLUMNS: readonly ParquetColumn[] = [
  {
    name: 'time',
    schema: {
      name: 'time',
      type: 'INT64',
      converted_type: 'TIMESTAMP_MILLIS',
      logical_type: { type: 'TIMESTAMP', isAdjustedToUTC: true, unit: 'MILLIS' },
      repetition_type: 'REQUIRED',
    },
    of: ({ reading }) => new Date(reading.timeMs),
  },
  text('survey', ({ segment }) => segment.survey.id),
  text('transect', ({ segment }) => segment.quadrat?.transect),
  number('distance_m', ({ segment }) => segment.quadrat?.distanceMetres),
  text('quadrat', ({ segment }) => segment.quadrat?.label),
  text('quantity', ({ segment }) => segment.probe.quantity),
  number('value', ({ reading }) => reading.value),
  text('unit', ({ segment }) => segment.calibration?.fitted.unit),
  number('uncertainty', ({ reading }) => reading.uncertainty ?? undefined),
  {
    name: 'flag',
    schema: { name: 'flag', type: 'INT32', repetition_type: 'REQUIRED' },
    of: ({ reading }) => reading.flag,
  },
  text('probe', ({ segment }) => segment.probe.id),
  text('calibration', ({ calibration }) => calibration ?? undefined),
  number('signal', ({ reading }) => reading.signal),
  text('signal_unit', ({ signalUnit }) => signalUnit),
  text('way', ({ segment }) => segment.probe.method.way),
  number('depth_cm', ({ segment }) => segment.probe.method.depthCentimetres),
  number('height_m', ({ segment }) => segment.probe.method.heightMetres),
]
