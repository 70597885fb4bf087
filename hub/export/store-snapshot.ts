import type { Spot } from '../contract/spot.ts'
import { SurveyFile } from '../contract/survey.ts'
import { type CleanValues, CleanValuesReader } from '../store/clean-values.ts'
import { CsvSlices } from '../store/csv-slices.ts'
import { openForReading, type SqliteDatabase, type SqliteStatement } from '../store/open-database.ts'
import { ReadingCounts } from '../store/reading-counts.ts'
import { type SheetKept, SheetTable } from '../store/sheet-table.ts'
import { SpotTable } from '../store/spot-table.ts'
import type { ChannelRow } from '../store/sqlite-reader.ts'
import type { ReadingRow } from '../store/store.ts'

/** Rows of readings read at once. */
const ROWS = 4000

/**
 * What a data folder holds at one moment, standing still while the hub goes on writing: all tables of one file then tell
 * of the same readings. Reads within one transaction of its own connection (WAL snapshot isolation).
 */
export class StoreSnapshot {
  readonly database: SqliteDatabase
  readonly #sql: ReturnType<typeof prepare>
  #cleanValues: CleanValuesReader | undefined
  #counts: ReadingCounts | undefined

  /**
   * @param isSealedOnly  leaves out what has come in the last seconds, which no test of neighbours has seen yet
   */
  constructor(folder: string, isSealedOnly = false) {
    this.database = openForReading(folder)
    // temporary views go before the tables of the file: all that reads the store then sees sealed readings alone
    if (isSealedOnly)
      this.database.exec(
        `CREATE TEMP VIEW inbox AS SELECT rowid, * FROM main.inbox WHERE 0;
         CREATE TEMP VIEW every_reading AS SELECT * FROM main.reading;`,
      )
    this.database.exec('BEGIN')
    this.#sql = prepare(this.database)
    this.#sql.surveys.all() // a transaction begins at its first reading
  }

  surveys(): SurveyFile[] {
    return this.#sql.surveys.all().map((document) => SurveyFile.parse(JSON.parse(document as string)))
  }

  spots(): Spot[] {
    return new SpotTable(this.database).all()
  }

  sheets(survey: string): SheetKept[] {
    return new SheetTable(this.database).of(survey)
  }

  channels(): ChannelRow[] {
    return this.#sql.channels.all() as ChannelRow[]
  }

  /** the ids that readings name their calibrations by */
  calibrationIds(): Map<number, string> {
    const rows = this.#sql.calibrations.all() as { ref: number; id: string }[]
    return new Map(rows.map(({ ref, id }) => [ref, id]))
  }

  /** Of the clean values of one channel in a span of time, the first and the last. */
  cleanEnds(channel: number, fromMs: number, toMs: number, acceptSuspect: boolean): CleanValues {
    this.#cleanValues ??= new CleanValuesReader(this.database)
    return this.#cleanValues.ends(channel, fromMs, toMs, acceptSuspect)
  }

  cleanValues(channel: number, fromMs: number, toMs: number, acceptSuspect: boolean): CleanValues {
    this.#cleanValues ??= new CleanValuesReader(this.database)
    return this.#cleanValues.between(channel, fromMs, toMs, acceptSuspect)
  }

  saturatedMs(channel: number, fromMs: number, toMs: number): number[] {
    this.#cleanValues ??= new CleanValuesReader(this.database)
    return this.#cleanValues.saturatedMs(channel, fromMs, toMs)
  }

  countByReason(channel: number, fromMs: number, toMs: number, acceptSuspect: boolean): Map<string, number> {
    return this.#countsOf().countByReason(channel, fromMs, toMs, acceptSuspect)
  }

  received(channel: number, fromMs: number, toMs: number): number {
    return this.#countsOf().count(channel, fromMs, toMs).received
  }

  #countsOf(): ReadingCounts {
    this.#counts ??= new ReadingCounts(this.database)
    return this.#counts
  }

  readingsBetween(channel: number, fromMs: number, toMs: number, atMost: number): ReadingRow[] {
    const from = { channel, afterMs: fromMs - 1, afterId: Number.MAX_SAFE_INTEGER }
    return this.#sql.slice.all({ ...from, toMs, rows: atMost }) as ReadingRow[]
  }

  /** Readings of a channel in time order, some thousand at a time. */
  *slices(channel: number, fromMs: number, toMs: number): Generator<ReadingRow[]> {
    let afterMs = fromMs - 1
    let afterId = Number.MAX_SAFE_INTEGER
    for (;;) {
      const slice = this.#sql.slice.all({ channel, afterMs, afterId, toMs, rows: ROWS }) as ReadingRow[]
      if (slice.length > 0) yield slice
      if (slice.length < ROWS) return
      ;({ timeMs: afterMs, id: afterId } = slice.at(-1)!)
    }
  }

  csvSlices(): CsvSlices {
    return new CsvSlices(this.database)
  }

  /** Something that was changed is still being worked out anew. */
  get isUnsettled(): boolean {
    return this.#sql.unsettled.get() === 1
  }

  /** readings that have come but are not among those of this snapshot */
  get unsealed(): number {
    return this.#sql.unsealed.get() as number
  }

  close(): void {
    this.database.close()
  }
}

function prepare(database: SqliteDatabase) {
  const sql = (text: string): SqliteStatement => database.prepare(text)
  return {
    surveys: sql(
      `SELECT document FROM survey_revision AS r
       WHERE revision = (SELECT max(revision) FROM survey_revision WHERE survey = r.survey) ORDER BY survey`,
    ).pluck(),
    channels: sql(
      `SELECT channel.id, board.name AS board, channel.name, channel.unit
       FROM channel JOIN board ON board.id = channel.board ORDER BY board.name, channel.name, channel.unit`,
    ),
    calibrations: sql('SELECT ref, id FROM calibration'),
    slice: sql(
      `SELECT channel, t_ms AS timeMs, id, signal, value, uncertainty, flag, calibration, why FROM every_reading
       WHERE channel = @channel AND (t_ms, id) > (@afterMs, @afterId) AND t_ms < @toMs ORDER BY t_ms, id LIMIT @rows`,
    ),
    unsettled: sql(
      'SELECT EXISTS (SELECT 1 FROM recompute) OR EXISTS (SELECT 1 FROM review) OR EXISTS (SELECT 1 FROM reclock)',
    ).pluck(),
    unsealed: sql('SELECT count(*) FROM main.inbox').pluck(),
  }
}
