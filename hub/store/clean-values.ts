import { CLEAN_ROW } from '../quality/clean.ts'
import type { SqliteDatabase, SqliteStatement } from './open-database.ts'

/** Rows at once: all at once would take five times the memory of what is made of them. */
const ROWS = 5000

/** Clean readings of one channel in time order, as columns. */
export interface CleanValues {
  timeMs: number[]
  value: number[]
  /** standard uncertainty; NaN where it is not known */
  uncertainty: number[]
}

/** Reads the clean values of channels, for summaries. */
export class CleanValuesReader {
  readonly #database: SqliteDatabase
  readonly #between: SqliteStatement
  readonly #first: SqliteStatement
  readonly #last: SqliteStatement
  readonly #saturated: SqliteStatement

  constructor(database: SqliteDatabase) {
    this.#database = database
    this.#between = database
      .prepare(
        `SELECT t_ms, value, uncertainty, id FROM every_reading
         WHERE channel = @channel AND (t_ms, id) > (@afterMs, @afterId) AND t_ms < @toMs AND ${CLEAN_ROW}
         ORDER BY t_ms, id LIMIT @rows`,
      )
      .raw()
    const end = (order: string) =>
      database
        .prepare(
          `SELECT t_ms, value, uncertainty, id FROM every_reading
           WHERE channel = @channel AND t_ms >= @fromMs AND t_ms < @toMs AND ${CLEAN_ROW} ORDER BY t_ms ${order} LIMIT 1`,
        )
        .raw()
    this.#first = end('ASC')
    this.#last = end('DESC')
    this.#saturated = database
      .prepare(
        `SELECT t_ms FROM every_reading
         WHERE channel = @channel AND t_ms >= @fromMs AND t_ms < @toMs AND flag = 4
           AND (why LIKE '%"test":"saturated"%' OR why LIKE '%"test":"full-scale"%') ORDER BY t_ms`,
      )
      .pluck()
  }

  /** When a light sensor was at its full scale: how bright it was then is not known. */
  saturatedMs(channel: number, fromMs: number, toMs: number): number[] {
    return this.#saturated.all(inCalendar({ channel, fromMs, toMs })) as number[]
  }

  /** Of what {@link between} gives, the first and the last alone. */
  ends(channel: number, fromMs: number, toMs: number, acceptSuspect: boolean): CleanValues {
    const span = { ...inCalendar({ channel, fromMs, toMs }), acceptSuspect: acceptSuspect ? 1 : 0 }
    const first = this.#first.get(span) as CleanRow | undefined
    const last = first && (this.#last.get(span) as CleanRow | undefined)
    const rows = first && last ? [first, last] : []
    return {
      timeMs: rows.map(([timeMs]) => timeMs),
      value: rows.map(([, value]) => value),
      uncertainty: rows.map(([, , uncertainty]) => uncertainty ?? Number.NaN),
    }
  }

  /** @param toMs  exclusive; both ends may be infinite */
  between(channel: number, fromMs: number, toMs: number, acceptSuspect: boolean): CleanValues {
    const span = inCalendar({ channel, fromMs, toMs })
    const values: CleanValues = { timeMs: [], value: [], uncertainty: [] }
    // one transaction: nothing moves from the inbox to its place between two slices
    this.#database.transaction(() => {
      let afterMs = span.fromMs - 1
      let afterId = Number.MAX_SAFE_INTEGER
      for (;;) {
        const slice = this.#between.all({
          ...{ channel, toMs: span.toMs, afterMs, afterId, rows: ROWS },
          acceptSuspect: acceptSuspect ? 1 : 0,
        }) as CleanRow[]
        for (const [timeMs, value, uncertainty] of slice) {
          values.timeMs.push(timeMs)
          values.value.push(value)
          values.uncertainty.push(uncertainty ?? Number.NaN)
        }
        const last = slice.at(-1)
        if (!last || slice.length < ROWS) return
        ;[afterMs, , , afterId] = last
      }
    })()
    return values
  }
}

type CleanRow = [timeMs: number, value: number, uncertainty: number | null, id: number]

/** Endless spans end where a calendar does: an INTEGER column holds no infinity. */
function inCalendar(span: { channel: number; fromMs: number; toMs: number }) {
  return { ...span, fromMs: Math.max(span.fromMs, -8.64e15), toMs: Math.min(span.toMs, 8.64e15) }
}
