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

  constructor(database: SqliteDatabase) {
    this.#between = database
      .prepare(
        `SELECT t_ms, value, uncertainty FROM every_reading
         WHERE channel = @channel AND t_ms >= @fromMs AND t_ms < @toMs AND ${CLEAN_ROW} ORDER BY t_ms, id`,
      )
      .raw()
  }

  /** @param toMs  exclusive; both ends may be infinite */
  between(channel: number, fromMs: number, toMs: number, acceptSuspect: boolean): CleanValues {
    const rows = this.#between.all({
      channel,
      fromMs: Math.max(fromMs, -8.64e15),
      toMs: Math.min(toMs, 8.64e15),
      acceptSuspect: acceptSuspect ? 1 : 0,
    }) as [number, number, number | null][]
    return {
      timeMs: rows.map(([timeMs]) => timeMs),
      value: rows.map(([, value]) => value),
      uncertainty: rows.map(([, , uncertainty]) => uncertainty ?? Number.NaN),
    }
  }
}
