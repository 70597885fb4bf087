import type { Flag } from '../contract/flag.ts'
import type { SqliteDatabase } from './open-database.ts'
import { READINGS_PER_MESSAGE, type TimeOrigin } from './store.ts'

/** A stored reading as it is judged again: what came, and what was made of it before. */
export interface StoredReading {
  t_ms: number
  id: number
  signal: number
  value: number | null
  flag: Flag
  time_origin: TimeOrigin
}

/** Where to go on reading: the first time, and within it the first id. */
export interface ReadingCursor {
  fromMs: number
  fromId: number
}

/** Reads the readings of a channel in slices, in order, and the values that came with them in the same messages. */
export class ReadingsToAppraise {
  readonly #slice
  readonly #valuesAround

  /** @param table `reading` where the inbox has been sealed before, otherwise `every_reading` */
  constructor(database: SqliteDatabase, table: 'reading' | 'every_reading') {
    this.#slice = database.prepare(
      `SELECT t_ms, r.id, signal, value, flag, message.time_origin
       FROM ${table} AS r JOIN message ON message.id = r.id / ${READINGS_PER_MESSAGE}
       WHERE channel = ? AND (t_ms, r.id) >= (?, ?) AND t_ms < ? ORDER BY t_ms, r.id LIMIT ?`,
    )
    this.#valuesAround = database.prepare(
      `SELECT every_reading.id, value FROM every_reading
       WHERE channel IN (SELECT channel.id FROM channel JOIN board ON board.id = channel.board
                         WHERE board.name = ? AND channel.name = ?)
         AND t_ms BETWEEN ? AND ?`,
    )
  }

  slice(channel: number, from: ReadingCursor, toMs: number, rows: number): StoredReading[] {
    return this.#slice.all(channel, from.fromMs, from.fromId, toMs, rows) as StoredReading[]
  }

  /** For each reading of a slice, the value that another channel of its board had in the same message. */
  companions(
    board: string,
    slice: readonly StoredReading[],
  ): (channel: string, readingId: number) => number | null {
    const byChannel = new Map<string, Map<number, number | null>>()
    return (channel, readingId) => {
      let byMessage = byChannel.get(channel)
      if (!byMessage) {
        byMessage = this.#valuesByMessage(board, channel, slice)
        byChannel.set(channel, byMessage)
      }
      return byMessage.get(Math.floor(readingId / READINGS_PER_MESSAGE)) ?? null
    }
  }

  #valuesByMessage(
    board: string,
    channel: string,
    slice: readonly StoredReading[],
  ): Map<number, number | null> {
    // times within one message differ by less than an hour on either side of any of its signals
    const marginMs = 3_600_000
    const rows = this.#valuesAround.all(
      board,
      channel,
      slice[0]!.t_ms - marginMs,
      slice.at(-1)!.t_ms + marginMs,
    ) as { id: number; value: number | null }[]
    const byMessage = new Map<number, number | null>()
    for (const row of rows) {
      const message = Math.floor(row.id / READINGS_PER_MESSAGE)
      if (!byMessage.has(message)) byMessage.set(message, row.value)
    }
    return byMessage
  }
}
