import { CLEAN_ROW, NO_VALUE } from '../quality/clean.ts'
import type { SqliteDatabase, SqliteStatement } from './open-database.ts'
import { floorTo } from './rollup-parts.ts'
import { READINGS_PER_MESSAGE } from './store.ts'

/** Readings looked at for one piece of text: more would hold up whatever else the thread does. */
const READINGS_AT_ONCE = 500

/**
 * Readings as CSV lines, formatted by SQLite itself: a download then costs little, and its memory does not grow.
 * What lies in the inbox when the download begins is copied aside, so that sealing meanwhile neither loses nor
 * doubles a row; readings that arrive later are left to the next download.
 */
export class CsvSlices {
  readonly #database: SqliteDatabase
  readonly #ids: { lastId: number; tailFromId: number }
  readonly #prepared = new Map<string, { timeOf: SqliteStatement; lines: SqliteStatement }>()
  readonly #tailOf: SqliteStatement

  constructor(database: SqliteDatabase) {
    this.#database = database
    database.exec(`
      DROP TABLE IF EXISTS temp.tail;
      CREATE TEMP TABLE tail (
        channel, t_ms, id, signal, value, uncertainty, flag, calibration, why, PRIMARY KEY (channel, t_ms, id)
      ) WITHOUT ROWID;`)
    this.#ids = database.transaction(() => {
      database.exec(
        'INSERT INTO tail SELECT channel, t_ms, id, signal, value, uncertainty, flag, calibration, why FROM inbox',
      )
      const last = database.prepare('SELECT coalesce(max(id), 0) FROM message').pluck().get() as number
      const lastId = (last + 1) * READINGS_PER_MESSAGE
      const tailFromId = database
        .prepare('SELECT coalesce(min(id), ?) FROM tail')
        .pluck()
        .get(lastId) as number
      return { lastId, tailFromId }
    })()
    this.#tailOf = database
      .prepare('SELECT 1 FROM temp.tail WHERE channel = ? AND t_ms >= ? AND t_ms < ? LIMIT 1')
      .pluck()
  }

  /** @yields the lines of some `rows` readings at a time (all of the last one's millisecond), those that are wanted */
  *of(span: CsvRow, rows = READINGS_AT_ONCE): Generator<string> {
    const {
      channel,
      fromMs,
      toMs,
      rows: wanted,
      acceptSuspect,
      withReason,
      withDrift,
      drift,
      ...words
    } = span
    const hasTail = this.#tailOf.get(channel, fromMs, toMs) === 1
    const { timeOf, lines } = this.#statements({
      ...{ wanted, withReason, withDrift, hasTail },
      hasDrift: drift !== null,
    })
    const about = { channel, ...words, ...drift, ...this.#ids, acceptSuspect: acceptSuspect ? 1 : 0 }
    const next = (afterMs: number, beforeMs: number, skip: number) =>
      timeOf.get({ channel, ...this.#ids, afterMs, beforeMs, skip }) as number | undefined
    let afterMs = fromMs - 1
    for (;;) {
      const firstMs = next(afterMs, toMs, 0)
      if (firstMs === undefined) return
      // the date is the same for all lines of a slice: putting it together anew was half the work on a line
      const dayMs = floorTo(DAY_MS, firstMs)
      const endMs = Math.min(toMs, dayMs + DAY_MS)
      const lastMs = next(afterMs, endMs, rows - 1) ?? endMs - 1
      const date = new Date(dayMs).toISOString().slice(0, DATE_LETTERS)
      const text = lines.get({ ...about, afterMs, lastMs, date, dayMs: BigInt(dayMs) }) as string | null
      if (text !== null) yield text
      afterMs = lastMs
    }
  }

  #statements(form: LineForm) {
    const key = JSON.stringify(form)
    let statements = this.#prepared.get(key)
    if (!statements) {
      const { timeOf, lines } = sqlOf(form)
      statements = {
        timeOf: this.#database.prepare(timeOf).pluck(),
        lines: this.#database.prepare(lines).pluck(),
      }
      this.#prepared.set(key, statements)
    }
    return statements
  }

  end(): void {
    this.#database.exec('DROP TABLE IF EXISTS temp.tail')
  }
}

const DAY_MS = 86_400_000
/** 2026-06-12T */
const DATE_LETTERS = 11

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

interface LineForm {
  wanted: CsvRow['rows']
  withReason: boolean
  withDrift: boolean
  hasDrift: boolean
  /** some of the span were in the inbox */
  hasTail: boolean
}

const WANTED: Record<CsvRow['rows'], string> = {
  all: '',
  clean: `WHERE ${CLEAN_ROW}`,
  'not clean': `WHERE NOT ${CLEAN_ROW}`,
}

const MAIN_REASON = `coalesce(@reason, json_extract(why, '$[0].test'), '${NO_VALUE}')`
const FULL_REASON = `coalesce(@reasonText, (SELECT group_concat(json_extract(value, '$.text'), '; ') FROM json_each(why)), '')`
const REASON_CELLS = `|| ',' || ${MAIN_REASON} || ',"' || replace(${FULL_REASON}, '"', '""') || '"'`

/** Error at the check = atZero + perUnit · value, times the share of the time from calibration to check that has passed. */
const DRIFT_ERROR =
  '(@atZero + @perUnit * value) * (t_ms - @calibratedAtMs) / (@checkedAtMs - @calibratedAtMs)'
const DRIFT_CELLS = `|| CASE WHEN value IS NOT NULL AND t_ms BETWEEN @calibratedAtMs AND @checkedAtMs
  THEN printf(',%.9g,%.3g', value - ${DRIFT_ERROR}, -${DRIFT_ERROR}) ELSE ',,' END`
const NO_DRIFT_CELLS = `|| ',,'`

const CALIBRATION = `ifnull(calibration.id, '')`
const TIME = '@date, of_day / 3600000, of_day / 60000 % 60, of_day / 1000 % 60, of_day % 1000'
const shortly = (number: string, digits: number) =>
  `iif(${number} IS NULL, '', format('%.${digits}g', ${number}))`

/** One call for a whole line costs half of one for each number; cells that are empty would come out as zeros. */
const LINE = `CASE WHEN value IS NULL OR uncertainty IS NULL
  THEN format('%s%02d:%02d:%02d.%03dZ%s%s%s%s,%d%s%s,%.15g%s', ${TIME}, @afterTime,
    ${shortly('value', 9)}, @unit, ${shortly('uncertainty', 3)}, flag, @probe, ${CALIBRATION}, signal, @signalUnit)
  ELSE format('%s%02d:%02d:%02d.%03dZ%s%.9g%s%.3g,%d%s%s,%.15g%s', ${TIME}, @afterTime,
    value, @unit, uncertainty, flag, @probe, ${CALIBRATION}, signal, @signalUnit)
  END`

/**
 * `timeOf` is the time of the reading that stands `skip` places further on. Where a slice ends is asked first: its lines
 * then come in order from where they lie, and are sorted by nobody.
 */
function sqlOf({ wanted, withReason, withDrift, hasDrift, hasTail }: LineForm): {
  timeOf: string
  lines: string
} {
  const sealed = 'FROM reading WHERE channel = @channel AND t_ms > @afterMs AND id < @lastId'
  const notInTail = `(id < @tailFromId OR NOT EXISTS (
    SELECT 1 FROM temp.tail AS t WHERE t.channel = @channel AND t.t_ms = reading.t_ms AND t.id = reading.id))`
  const some = (columns: string, until: string) =>
    hasTail
      ? `SELECT ${columns} ${sealed} AND ${until} AND ${notInTail} UNION ALL
         SELECT ${columns} FROM temp.tail WHERE channel = @channel AND t_ms > @afterMs AND ${until} ORDER BY t_ms, id`
      : `SELECT ${columns} ${sealed} AND ${until}`
  const cells = [
    LINE,
    withReason ? REASON_CELLS : '',
    withDrift ? (hasDrift ? DRIFT_CELLS : NO_DRIFT_CELLS) : '',
    '|| char(13, 10)',
  ]
  const columns = 't_ms, id, signal, value, uncertainty, flag, calibration, why, t_ms - @dayMs AS of_day'
  return {
    timeOf: `SELECT t_ms FROM (${some('t_ms, id', 't_ms < @beforeMs')}) LIMIT 1 OFFSET CAST(@skip AS INTEGER)`,
    lines: `SELECT group_concat(${cells.join(' ')}, '')
      FROM (${some(columns, 't_ms <= @lastMs')}) AS some LEFT JOIN calibration ON calibration.ref = some.calibration
      ${WANTED[wanted]}`,
  }
}
