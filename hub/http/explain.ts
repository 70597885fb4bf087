import { rfc3339 } from '../clock.ts'
import type { FlagReason } from '../contract/flag.ts'
import type { ReadingExplained } from '../contract/reading.ts'
import { TYPED_BOARD } from '../contract/wire-names.ts'
import type { SqliteReader } from '../store/sqlite-reader.ts'
import { READINGS_PER_MESSAGE } from '../store/store.ts'
import { correctionThatMoved, timeError } from '../survey/time-error.ts'
import type { Timelines } from '../survey/timeline.ts'

/** How far back of a reading messages of its board are looked at to compare its clock. */
const COMPARED_MS = 3_600_000

/** Walks back from a reading to the bytes its board sent; null when there is no such reading. */
export function explainReading(
  reader: SqliteReader,
  timelines: Timelines,
  id: number,
): ReadingExplained | null {
  const row = reader.reading(id)
  const message = reader.message(Math.floor(id / READINGS_PER_MESSAGE))
  const channel = reader.channels().find((candidate) => candidate.id === row?.channel)
  if (!row || !message || !channel) return null
  const segment = timelines.at(channel.board, channel.name, row.timeMs)
  const calibration = segment?.calibration ?? null
  const correction = correctionThatMoved(timelines.surveys, channel.board, row.timeMs)
  const lagsMs = reader
    .field()
    .clockLags(channel.board, row.timeMs - COMPARED_MS)
    .flatMap(({ origin, lagMs }) => (origin === 'board clock' ? [lagMs] : []))
  const error = timeError({
    origin: message.timeOrigin,
    ageSeconds: (message.arrivedMs - row.timeMs) / 1000 + (correction?.offsetSeconds ?? 0),
    quickestSeconds: lagsMs.length === 0 ? null : Math.min(...lagsMs) / 1000,
    correction,
    isTyped: channel.board === TYPED_BOARD,
  })
  return {
    id,
    time: rfc3339(row.timeMs),
    timeOrigin: message.timeOrigin,
    timeErrorSeconds: error.seconds,
    timeErrorWhy: error.why,
    value: row.value,
    unit: calibration?.fitted.unit ?? null,
    uncertainty: row.uncertainty,
    flag: row.flag,
    why: row.why ? (JSON.parse(row.why) as FlagReason[]) : [],
    signal: row.signal,
    signalUnit: channel.unit,
    board: channel.board,
    channel: channel.name,
    survey: segment?.survey.id ?? null,
    quadrat: segment?.quadrat?.label ?? null,
    probe: segment?.probe.id ?? null,
    quantity: segment?.probe.quantity ?? null,
    method: segment?.probe.method ?? null,
    calibration: calibration?.id ?? null,
    calibrationRecipe: calibration ? JSON.parse(calibration.recipeText) : null,
    calibrationFacts: calibration?.fitted.facts ?? {},
    message: {
      id: message.id,
      source: message.source,
      arrived: rfc3339(message.arrivedMs),
      startup: message.startup,
      number: message.number,
      bytes: showBytes(message.bytes),
    },
  }
}

/** Bytes as text a person can read: what is not printable becomes a dot. */
export function showBytes(bytes: Uint8Array, atMost = 2000): string {
  const text = Buffer.from(bytes.subarray(0, atMost)).toString('utf8')
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is replaced
  return text.replace(/[\u0000-\u001f\u007f\ufffd]/g, '·')
}
