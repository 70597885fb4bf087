import { CLEAN_ROW, NO_VALUE } from '../quality/clean.ts'
import type { SqliteDatabase } from './open-database.ts'
import { READINGS_PER_MESSAGE } from './store.ts'

/**
 * Readings as CSV lines, formatted by SQLite itself: a download then costs little, and its memory does not grow.
 * What lies in the inbox when the download begins is copied aside, so that sealing meanwhile neither loses nor
 * doubles a row; readings that arrive later are left to the next download.
 */
export class CsvSlices {
  readonly #database: SqliteDatabase
  readonly #slice
  readonly #lastId: number

  constructor(database: SqliteDatabase) {
    this.#database = database
    database.exec(`
      DROP TABLE IF EXISTS temp.tail;
      CREATE TEMP TABLE tail (
        channel, t_ms, id, signal, value, uncertainty, flag, calibration, why, PRIMARY KEY (channel, t_ms, id)
      ) WITHOUT ROWID;`)
    this.#lastId = database.transaction(() => {
      database.exec(
        'INSERT INTO tail SELECT channel, t_ms, id, signal, value, uncertainty, flag, calibration, why FROM inbox',
      )
      const last = database.prepare('SELECT coalesce(max(id), 0) FROM message').pluck().get() as number
      return (last + 1) * READINGS_PER_MESSAGE
    })()
    this.#slice = database.prepare(`
      WITH some AS (
        SELECT t_ms, id, signal, value, uncertainty, flag, calibration, why FROM reading
        WHERE channel = @channel AND (t_ms, id) > (@afterMs, @afterId) AND t_ms < @toMs AND id < @lastId
          AND ${ROW_IS_WANTED}
          AND NOT EXISTS (SELECT 1 FROM temp.tail AS t
                          WHERE t.channel = @channel AND t.t_ms = reading.t_ms AND t.id = reading.id)
        UNION ALL
        SELECT t_ms, id, signal, value, uncertainty, flag, calibration, why FROM temp.tail
        WHERE channel = @channel AND (t_ms, id) > (@afterMs, @afterId) AND t_ms < @toMs
          AND ${ROW_IS_WANTED}
        ORDER BY t_ms, id LIMIT @rows
      )
      SELECT count(*) AS n, max(t_ms) AS lastMs, max(id) FILTER (WHERE t_ms = (SELECT max(t_ms) FROM some)) AS lastId,
        group_concat(
          strftime('%Y-%m-%dT%H:%M:%S', t_ms / 1000, 'unixepoch') || printf('.%03dZ', t_ms % 1000) || @afterTime ||
          CASE WHEN value IS NULL THEN '' ELSE printf('%.9g', value) END || @unit || CASE WHEN uncertainty IS NULL THEN '' ELSE printf('%.3g', uncertainty) END || ',' || flag ||
          @probe || coalesce((SELECT calibration.id FROM calibration WHERE ref = some.calibration), '') || ',' ||
          printf('%.15g', signal) || @signalUnit ||
          CASE WHEN @withReason THEN ${REASON_CELLS} ELSE '' END ||
          CASE WHEN @withDrift THEN ${DRIFT_CELLS} ELSE '' END || char(13, 10), '') AS lines
      FROM some`)
  }

  /** @yields text of up to `rows` lines at a time */
  *of(span: CsvRow, rows = 2000): Generator<string> {
    const { drift, withDrift, rows: wanted, acceptSuspect, withReason, ...rest } = span
    let afterMs = span.fromMs - 1
    let afterId = Number.MAX_SAFE_INTEGER
    for (;;) {
      const slice = this.#slice.get({
        ...rest,
        ...(drift ?? { calibratedAtMs: 0, checkedAtMs: 1, atZero: 0, perUnit: 0 }),
        hasDrift: drift === null ? 0 : 1,
        withDrift: withDrift ? 1 : 0,
        wanted,
        acceptSuspect: acceptSuspect ? 1 : 0,
        withReason: withReason ? 1 : 0,
        afterMs,
        afterId,
        lastId: this.#lastId,
        rows,
      }) as { n: number; lastMs: number; lastId: number; lines: string | null }
      if (slice.lines !== null) yield slice.lines
      if (slice.n < rows) return
      afterMs = slice.lastMs
      afterId = slice.lastId
    }
  }

  end(): void {
    this.#database.exec('DROP TABLE IF EXISTS temp.tail')
  }
}

/** What is the same on every line of a span, as CSV text with its commas, and the span itself. */
export interface CsvRow {
  channel: number
  fromMs: number
  toMs: number
  /** which readings of it */
  rows: 'all' | 'clean' | 'not clean'
  /** a person has accepted the suspect ones */
  acceptSuspect: boolean
  /** adds two cells: why each reading is left out, in a word and in full */
  withReason: boolean
  /** the reason where it is the same for all of them */
  reason: string | null
  reasonText: string | null
  afterTime: string
  unit: string
  probe: string
  signalUnit: string
  /** adds two cells: the value corrected for drift, and the correction; empty where there is none */
  withDrift: boolean
  drift: { calibratedAtMs: number; checkedAtMs: number; atZero: number; perUnit: number } | null
}

const ROW_IS_WANTED = `CASE @wanted WHEN 'clean' THEN ${CLEAN_ROW} WHEN 'not clean' THEN NOT ${CLEAN_ROW} ELSE 1 END`
const MAIN_REASON = `coalesce(@reason, json_extract(why, '$[0].test'), '${NO_VALUE}')`
const FULL_REASON = `coalesce(@reasonText, (SELECT group_concat(json_extract(value, '$.text'), '; ') FROM json_each(why)), '')`
const REASON_CELLS = `',' || ${MAIN_REASON} || ',"' || replace(${FULL_REASON}, '"', '""') || '"'`

/** Error at the check = atZero + perUnit · value, times the share of the time from calibration to check that has passed. */
const DRIFT_ERROR =
  '(@atZero + @perUnit * value) * (t_ms - @calibratedAtMs) / (@checkedAtMs - @calibratedAtMs)'
const DRIFT_CELLS = `CASE WHEN @hasDrift AND value IS NOT NULL AND t_ms BETWEEN @calibratedAtMs AND @checkedAtMs
  THEN printf(',%.9g,%.3g', value - ${DRIFT_ERROR}, -${DRIFT_ERROR}) ELSE ',,' END`
