import type { ExportQuery } from '../contract/export-query.ts'
import { acceptsSuspect, leftOutWhole } from '../quality/clean.ts'
import type { SqliteReader } from '../store/sqlite-reader.ts'
import { driftLine, driftOf } from '../survey/drift.ts'
import type { Segment, Timelines } from '../survey/timeline.ts'

export const CSV_HEADING =
  'time,survey,transect,distance_m,quadrat,quantity,value,unit,uncertainty,flag,probe,calibration,signal,signal_unit\r\n'

/** What a download of readings reads of the store. */
export type ReadingsStore = Pick<SqliteReader, 'channels' | 'csvSlices'>

/**
 * Readings as CSV: RFC 4180, UTF-8, CR LF, one row a reading. Ordered by survey, transect, distance, quadrat, quantity,
 * probe, then time. Memory does not grow with the rows: each piece yielded is some hundred lines.
 *
 * `time` is RFC 3339 UTC with milliseconds; `uncertainty` the standard uncertainty in the value's unit.
 */
export function* readingsCsv(
  reader: ReadingsStore,
  timelines: Timelines,
  query: ExportQuery,
): Generator<string> {
  const withDrift = query.drift === 'shown'
  const withReason = query.set === 'excluded'
  const withMethod = query.method === 'shown'
  const more = `${withMethod ? ',way,depth_cm,height_m' : ''}${withReason ? ',reason,why' : ''}${withDrift ? ',corrected,drift_correction' : ''}`
  yield CSV_HEADING.replace('\r\n', `${more}\r\n`)
  const slices = reader.csvSlices()
  try {
    for (const { channel, signalUnit, fromMs, toMs, segment } of spansToExport(reader, timelines, query)) {
      const quadrat = segment?.quadrat ?? null
      const whole = leftOutWhole(segment)
      const place = quadrat
        ? [
            segment!.survey.id,
            quadrat.transect ?? '',
            quadrat.distanceMetres === undefined ? '' : String(quadrat.distanceMetres),
            quadrat.label,
          ]
        : [segment?.survey.id ?? '', '', '', '']
      yield* slices.of({
        channel,
        fromMs,
        toMs,
        rows: rowsWanted(query.set, whole),
        acceptSuspect: acceptsSuspect(segment),
        withReason,
        reason: whole,
        reasonText: whole === 'excluded by hand' ? (segment?.decision?.reason ?? null) : whole,
        afterTime: `,${[...place, segment?.probe.quantity ?? ''].map(cell).join(',')},`,
        unit: `,${cell(segment?.calibration?.fitted.unit ?? '')},`,
        probe: `,${cell(segment?.probe.id ?? '')},`,
        signalUnit: `,${cell(signalUnit)}${withMethod ? methodCells(segment) : ''}`,
        withDrift,
        drift: withDrift && segment ? driftOfSpan(segment) : null,
      })
    }
  } finally {
    slices.end()
  }
}

function methodCells(segment: Segment | null): string {
  const { way, depthCentimetres, heightMetres } = segment?.probe.method ?? {}
  return `,${[way, depthCentimetres, heightMetres].map((part) => cell(part === undefined ? '' : String(part))).join(',')}`
}

/** Of a segment that is left out as a whole, every reading is among the excluded. */
function rowsWanted(set: ExportQuery['set'], whole: string | null): 'all' | 'clean' | 'not clean' {
  if (set === 'clean') return 'clean'
  return set === 'excluded' && whole === null ? 'not clean' : 'all'
}

function driftOfSpan(segment: Segment) {
  const drift = driftOf(segment)
  if (!drift) return null
  const { calibratedAtMs, checkedAtMs } = drift
  return { calibratedAtMs, checkedAtMs, ...driftLine(drift) }
}

/** A stretch of one channel in which all that is the same from row to row is the same. */
export interface ExportSpan {
  channel: number
  signalUnit: string
  fromMs: number
  toMs: number
  segment: Segment | null
}

export function spansToExport(
  reader: Pick<SqliteReader, 'channels'>,
  timelines: Timelines,
  query: ExportQuery,
): ExportSpan[] {
  const fromMs = query.from === undefined ? -8.64e15 : Date.parse(query.from)
  const toMs = query.to === undefined ? 8.64e15 : Date.parse(query.to)
  const spans: ExportSpan[] = []
  for (const { id, board, name, unit } of reader.channels()) {
    let reachedMs = fromMs
    const add = (from: number, to: number, segment: Segment | null) => {
      const span = {
        channel: id,
        signalUnit: unit,
        fromMs: Math.max(from, fromMs),
        toMs: Math.min(to, toMs),
        segment,
      }
      if (span.fromMs < span.toMs && isAskedFor(segment, query)) spans.push(span)
    }
    for (const segment of timelines.of(board, name)) {
      add(reachedMs, segment.fromMs, null) // no probe was connected then
      add(segment.fromMs, segment.toMs, segment)
      reachedMs = Math.max(reachedMs, segment.toMs)
    }
    add(reachedMs, toMs, null)
  }
  return spans.sort(
    (a, b) =>
      compare(a.segment?.survey.id, b.segment?.survey.id) ||
      compare(a.segment?.quadrat?.transect, b.segment?.quadrat?.transect) ||
      (a.segment?.quadrat?.distanceMetres ?? 0) - (b.segment?.quadrat?.distanceMetres ?? 0) ||
      compare(a.segment?.quadrat?.label, b.segment?.quadrat?.label) ||
      compare(a.segment?.probe.quantity, b.segment?.probe.quantity) ||
      compare(a.segment?.probe.id, b.segment?.probe.id) ||
      a.channel - b.channel ||
      a.fromMs - b.fromMs,
  )
}

function isAskedFor(segment: Segment | null, query: ExportQuery): boolean {
  if (query.set === 'clean' && leftOutWhole(segment) !== null) return false
  return (
    (query.survey === undefined || segment?.survey.id === query.survey) &&
    (query.quadrat === undefined || segment?.quadrat?.label === query.quadrat) &&
    (query.quantity === undefined || segment?.probe.quantity === query.quantity)
  )
}

/** What has no place comes last. */
function compare(a: string | undefined, b: string | undefined): number {
  if (a === b) return 0
  if (a === undefined) return 1
  if (b === undefined) return -1
  return a < b ? -1 : 1
}

/**
 * One cell: quoted where RFC 4180 asks for it; text that a spreadsheet would run as a formula gets an apostrophe first.
 */
export function cell(text: string): string {
  const harmless = defused(text)
  return /[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless
}

/**
 * Text that a spreadsheet would run as a formula gets an apostrophe first; any other stays as it is.
 * @see OWASP, CSV injection: cells that begin with = + - @, also in full width, a tab, or the end of a line
 */
export function defused(text: string): string {
  return /^[=+\-@\t\r\n＝＋－＠]/.test(text) && !/^[+-]?\d+(\.\d+)?$/.test(text) ? `'${text}` : text
}
