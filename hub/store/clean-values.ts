import { CLEAN_ROW } from '../quality/clean.ts'
import type { SqliteDatabase, SqliteStatement } from './open-database.ts'

/** Clean readings of one channel in time order, as columns. */
export interface CleanValues {
  timeMs: number[]
  value: number[]
  /** standard uncertainty; NaN where it is not known */
  uncertainty: number[]
}

/** Reads the clean values of channels, for summaries. */
export class CleanValuesReader {
  readonly #between: SqliteStatement
  readonly #saturated: SqliteStatement

  constructor(database: SqliteDatabase) {
    this.#between = database
      .prepare(
        `SELECT t_ms, value, uncertainty FROM every_reading
         WHERE channel = @channel AND t_ms >= @fromMs AND t_ms < @toMs AND ${CLEAN_ROW} ORDER BY t_ms, id`,
      )
      .raw()
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

  /** @param toMs  exclusive; both ends may be infinite */
  between(channel: number, fromMs: number, toMs: number, acceptSuspect: boolean): CleanValues {
    const rows = this.#between.all({
      ...inCalendar({ channel, fromMs, toMs }),
      acceptSuspect: acceptSuspect ? 1 : 0,
    }) as [number, number, number | null][]
    return {
      timeMs: rows.map(([timeMs]) => timeMs),
      value: rows.map(([, value]) => value),
      uncertainty: rows.map(([, , uncertainty]) => uncertainty ?? Number.NaN),
    }
  }
}

/** Endless spans end where a calendar does: an INTEGER column holds no infinity. */
function inCalendar(span: { channel: number; fromMs: number; toMs: number }) {
  return { ...span, fromMs: Math.max(span.fromMs, -8.64e15), toMs: Math.min(span.toMs, 8.64e15) }
}
