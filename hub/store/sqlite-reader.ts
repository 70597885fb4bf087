import type { Spot } from '../contract/spot.ts'
import { SurveyFile } from '../contract/survey.ts'
import { type CleanValues, CleanValuesReader } from './clean-values.ts'
import { CsvSlices } from './csv-slices.ts'
import { FieldQueries } from './field-queries.ts'
import { openForReading, type SqliteDatabase } from './open-database.ts'
import { ReadingCounts } from './reading-counts.ts'
import { ReadingsToAppraise } from './readings-to-appraise.ts'
import { type Series, SeriesReader } from './series-reader.ts'
import { type SheetKept, SheetTable } from './sheet-table.ts'
import { SpotTable } from './spot-table.ts'
import type { ReadingRow, Tallies, TimeOrigin } from './store.ts'
import { READINGS_PER_MESSAGE } from './store.ts'

export interface ChannelRow {
  id: number
  board: string
  name: string
  unit: string
}

export interface BoardRow {
  name: string
  firstHeardMs: number
  about: string | null
}

export interface QuarantineRow {
  id: number
  arrivedMs: number
  source: string
  board: string | null
  code: string
  message: string
  bytes: Buffer
}

export interface MessageRow {
  id: number
  board: string
  source: string
  arrivedMs: number
  startup: number | null
  number: number | null
  timeOrigin: TimeOrigin
  bytes: Buffer
}

/** Reads what the writer has committed; any number of these may be open, in any thread. */
export class SqliteReader {
  readonly #database: SqliteDatabase
  readonly #sql: ReturnType<typeof prepare>
  readonly #folder: string
  #toAppraise: ReadingsToAppraise | undefined
  #cleanValues: CleanValuesReader | undefined
  #field: FieldQueries | undefined
  #series: SeriesReader | undefined
  #counts: ReadingCounts | undefined

  constructor(folder: string) {
    this.#folder = folder
    this.#database = openForReading(folder)
    this.#sql = prepare(this.#database)
  }

  /** A second reader of the same data, for work that goes on beside this one. */
  another(): SqliteReader {
    return new SqliteReader(this.#folder)
  }

  /** where the data is kept */
  get folder(): string {
    return this.#folder
  }

  field(): FieldQueries {
    this.#field ??= new FieldQueries(this.#database)
    return this.#field
  }

  surveys(): SurveyFile[] {
    return this.#sql.surveys.all().map((document) => SurveyFile.parse(JSON.parse(document as string)))
  }

  /** Sheets of species and animals of a survey, newest first. */
  sheets(survey: string): SheetKept[] {
    return new SheetTable(this.#database).of(survey)
  }

  spots(): Spot[] {
    return new SpotTable(this.#database).all()
  }

  /** Readings of one channel in a short span, in time order; at most `atMost` of them. */
  readingsBetween(channel: number, fromMs: number, toMs: number, atMost: number): ReadingRow[] {
    return this.#sql.readingsBetween.all(channel, fromMs, toMs, atMost) as ReadingRow[]
  }

  boards(): BoardRow[] {
    return this.#sql.boards.all() as BoardRow[]
  }

  channels(): ChannelRow[] {
    return this.#sql.channels.all() as ChannelRow[]
  }

  calibrationIds(): Map<number, string> {
    const rows = this.#sql.calibrations.all() as { ref: number; id: string }[]
    return new Map(rows.map((row) => [row.ref, row.id]))
  }

  tallies(): Tallies {
    const rows = this.#sql.tallies.all() as { name: keyof Tallies; count: number }[]
    const tallies: Tallies = { readings: 0, messages: 0, repeats: 0, quarantined: 0 }
    for (const row of rows) tallies[row.name] = row.count
    return tallies
  }

  /** The newest reading of every channel. */
  latest(): ReadingRow[] {
    const newest = new Map<number, ReadingRow>()
    for (const { id } of this.channels()) {
      const row = this.#sql.latestSealed.get(id) as ReadingRow | undefined
      if (row) newest.set(id, row)
    }
    for (const { newest: _newest, ...row } of this.#sql.latestInInbox.all() as (ReadingRow & {
      newest: number
    })[]) {
      const sealed = newest.get(row.channel)
      if (!sealed || sealed.timeMs <= row.timeMs) newest.set(row.channel, row)
    }
    return [...newest.values()]
  }

  /** The time of the oldest reading of every channel; a backlog may be older than the first message. */
  firstTimes(): Map<number, number> {
    const first = new Map(this.#sql.firstInInbox.all() as [number, number][])
    for (const { id } of this.channels()) {
      const timeMs = this.#sql.firstSealed.get(id) as number | null
      if (timeMs !== null) first.set(id, Math.min(timeMs, first.get(id) ?? timeMs))
    }
    return first
  }

  /** The id of the newest message: the cursor of the live stream. */
  lastMessageId(): number {
    return this.#sql.lastMessage.get() as number
  }

  /** Readings of all messages after `messageId`, or null when there are more messages than `atMost`. */
  readingsAfter(messageId: number, atMost: number): ReadingRow[] | null {
    const span = this.#sql.messagesAfter.get(messageId) as {
      n: number
      from: number | null
      to: number | null
    }
    if (span.n === 0 || span.from === null || span.to === null) return []
    if (span.n > atMost) return null
    const firstId = (messageId + 1) * READINGS_PER_MESSAGE
    const rows = this.#database.transaction(() => [
      ...(this.#sql.inboxFrom.all(firstId) as ReadingRow[]),
      ...this.channels().flatMap(
        ({ id }) => this.#sql.sealedFrom.all(id, span.from, span.to, firstId) as ReadingRow[],
      ),
    ])()
    return rows.sort((a, b) => a.id - b.id)
  }

  /** Readings of a channel for a chart, at most `steps` points; see {@link SeriesReader}. */
  series(channel: number, fromMs: number, toMs: number, steps: number): Series {
    this.#series ??= new SeriesReader(this.#database)
    return this.#series.series(channel, fromMs, toMs, steps)
  }

  /** Counts of readings over spans of any length, and their pauses. */
  counts(): ReadingCounts {
    this.#counts ??= new ReadingCounts(this.#database)
    return this.#counts
  }

  /** How many readings of a channel in a span are clean, and for the others how many by each test. */
  countByReason(channel: number, fromMs: number, toMs: number, acceptSuspect: boolean): Map<string, number> {
    return this.counts().countByReason(channel, fromMs, toMs, acceptSuspect)
  }

  /** How many readings of a channel lie in a span, clean or not. */
  received(channel: number, fromMs: number, toMs: number): number {
    return this.counts().count(channel, fromMs, toMs).received
  }

  quarantine(beforeId: number, atMost: number): QuarantineRow[] {
    return this.#sql.quarantine.all(beforeId, atMost) as QuarantineRow[]
  }

  message(id: number): MessageRow | null {
    return (this.#sql.message.get(id) as MessageRow | undefined) ?? null
  }

  reading(id: number): ReadingRow | null {
    const span = this.#sql.spanOfMessage.get(Math.floor(id / READINGS_PER_MESSAGE)) as MessageSpan | undefined
    if (!span) return null
    for (const channel of span.channels.split(','))
      for (const row of this.#sql.readingsFrom.all(Number(channel), span.from, span.to, id) as ReadingRow[])
        if (row.id === id) return row
    return null
  }

  recomputeIsDue(): boolean {
    return this.#sql.recomputeDue.get() === 1
  }

  /** Stored readings with what is needed to judge them again, in slices. */
  toAppraise(): ReadingsToAppraise {
    this.#toAppraise ??= new ReadingsToAppraise(this.#database, 'every_reading')
    return this.#toAppraise
  }

  /** When a light sensor was at its full scale. */
  saturatedMs(channel: number, fromMs: number, toMs: number): number[] {
    this.#cleanValues ??= new CleanValuesReader(this.#database)
    return this.#cleanValues.saturatedMs(channel, fromMs, toMs)
  }

  /** Of the clean values of one channel in a span of time, the first and the last. */
  cleanEnds(channel: number, fromMs: number, toMs: number, acceptSuspect: boolean): CleanValues {
    this.#cleanValues ??= new CleanValuesReader(this.#database)
    return this.#cleanValues.ends(channel, fromMs, toMs, acceptSuspect)
  }

  /** Clean values of one channel in a span of time, in time order. */
  cleanValues(channel: number, fromMs: number, toMs: number, acceptSuspect: boolean): CleanValues {
    this.#cleanValues ??= new CleanValuesReader(this.#database)
    return this.#cleanValues.between(channel, fromMs, toMs, acceptSuspect)
  }

  /** Lines of CSV for readings of one channel, in time order, a slice at a time; see hub/export/readings-csv.ts. */
  csvSlices(): CsvSlices {
    return new CsvSlices(this.#database)
  }

  close(): void {
    this.#database.close()
  }
}

interface MessageSpan {
  from: number
  to: number
  /** ids with commas */
  channels: string
}

/** Far more than are ever there, and few enough that a time multiplied by it is still a whole number. */
const INBOX_ROWS_AT_MOST = 2 ** 22

const READING = `channel, t_ms AS timeMs, id, signal, value, uncertainty, flag, calibration, why`

function prepare(database: SqliteDatabase) {
  const sql = (text: string) => database.prepare(text)
  return {
    surveys: sql(
      `SELECT document FROM survey_revision AS r
       WHERE revision = (SELECT max(revision) FROM survey_revision WHERE survey = r.survey) ORDER BY survey`,
    ).pluck(),
    boards: sql('SELECT name, first_heard_ms AS firstHeardMs, about FROM board ORDER BY name'),
    channels: sql(
      `SELECT channel.id, board.name AS board, channel.name, unit
       FROM channel JOIN board ON board.id = channel.board ORDER BY board.name, channel.name, unit`,
    ),
    calibrations: sql('SELECT ref, id FROM calibration'),
    tallies: sql('SELECT name, count FROM tally'),
    latestSealed: sql(`SELECT ${READING} FROM reading WHERE channel = ? ORDER BY t_ms DESC, id DESC LIMIT 1`),
    // of readings of one moment the one that came last: max() alone would take any of them
    latestInInbox: sql(
      `SELECT ${READING}, max(t_ms * ${INBOX_ROWS_AT_MOST} + rowid) AS newest FROM inbox GROUP BY channel`,
    ),
    firstSealed: sql('SELECT min(t_ms) FROM reading WHERE channel = ?').pluck(),
    firstInInbox: sql('SELECT channel, min(t_ms) FROM inbox GROUP BY channel').raw(),
    lastMessage: sql('SELECT coalesce(max(id), 0) FROM message').pluck(),
    messagesAfter: sql(
      'SELECT count(*) AS n, min(first_ms) AS "from", max(last_ms) AS "to" FROM message WHERE id > ?',
    ),
    readingsFrom: sql(
      `SELECT ${READING} FROM every_reading WHERE channel = ? AND t_ms BETWEEN ? AND ? AND id >= ?`,
    ),
    sealedFrom: sql(`SELECT ${READING} FROM reading WHERE channel = ? AND t_ms BETWEEN ? AND ? AND id >= ?`),
    inboxFrom: sql(`SELECT ${READING} FROM inbox WHERE id >= ?`),
    readingsBetween: sql(
      `SELECT ${READING} FROM every_reading WHERE channel = ? AND t_ms >= ? AND t_ms < ? ORDER BY t_ms, id LIMIT ?`,
    ),
    quarantine: sql(
      `SELECT id, arrived_ms AS arrivedMs, source, board, code, message, bytes
       FROM quarantine WHERE id < ? ORDER BY id DESC LIMIT ?`,
    ),
    message: sql(
      `SELECT message.id, board.name AS board, source, arrived_ms AS arrivedMs, startup, number,
              time_origin AS timeOrigin, bytes
       FROM message JOIN board ON board.id = message.board WHERE message.id = ?`,
    ),
    spanOfMessage: sql(
      `SELECT first_ms AS "from", last_ms AS "to",
              (SELECT group_concat(channel.id) FROM channel WHERE channel.board = message.board) AS channels
       FROM message WHERE id = ?`,
    ),
    recomputeDue: sql('SELECT count(*) > 0 FROM recompute').pluck(),
  }
}
