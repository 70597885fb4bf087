import { exportQuery } from '../contract/export-query.ts'
import { acceptsSuspect, isCleanReading } from '../quality/clean.ts'
import type { ReadingRow } from '../store/store.ts'
import type { Segment } from '../survey/timeline.ts'
import { spansToExport } from './readings-csv.ts'
import type { ExportSource } from './study-export.ts'

/** Clean readings of one probe at one quadrat under one calibration, some thousand at most, in time order. */
export interface CleanSlice {
  segment: Segment
  signalUnit: string
  readings: (ReadingRow & { value: number })[]
}

/** All clean readings of a survey, in the order of the downloads; no more than a slice of them is in memory. */
export function* cleanReadings({ store, timelines, survey }: ExportSource): Generator<CleanSlice> {
  const query = exportQuery.parse({ set: 'clean', survey: survey.id })
  for (const { channel, signalUnit, fromMs, toMs, segment } of spansToExport(store, timelines, query)) {
    if (segment === null) continue
    const isClean = (row: ReadingRow): row is ReadingRow & { value: number } =>
      isCleanReading(row, acceptsSuspect(segment))
    for (const slice of store.slices(channel, fromMs, toMs)) {
      const readings = slice.filter(isClean)
      if (readings.length > 0) yield { segment, signalUnit, readings }
    }
  }
}
