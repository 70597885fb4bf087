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
      `SELECT t_ms, every_reading.id, value FROM every_reading
       WHERE channel IN (SELECT channel.id FROM channel JOIN board ON board.id = channel.board
                         WHERE board.name = ? AND channel.name = ?)
         AND t_ms BETWEEN ? AND ? ORDER BY every_reading.id`,
    )
  }

  slice(channel: number, from: ReadingCursor, toMs: number, rows: number): StoredReading[] {
    return this.#slice.all(channel, from.fromMs, from.fromId, toMs, rows) as StoredReading[]
  }

  /** For each reading of a slice, the value that another channel of its board had in the same message, nearest in time. */
  companions(
    board: string,
    slice: readonly StoredReading[],
  ): (channel: string, readingId: number, timeMs: number) => number | null {
    const byChannel = new Map<string, Map<number, Companion[]>>()
    return (channel, readingId, timeMs) => {
      let byMessage = byChannel.get(channel)
      if (!byMessage) {
        byMessage = this.#valuesByMessage(board, channel, slice)
        byChannel.set(channel, byMessage)
      }
      let nearest: Companion | null = null
      for (const companion of byMessage.get(Math.floor(readingId / READINGS_PER_MESSAGE)) ?? [])
        if (nearest === null || isNearer(companion.t_ms, nearest.t_ms, timeMs)) nearest = companion
      return nearest?.value ?? null
    }
  }

  #valuesByMessage(
    board: string,
    channel: string,
    slice: readonly StoredReading[],
  ): Map<number, Companion[]> {
    // times within one message differ by less than an hour on either side of any of its signals
    const marginMs = 3_600_000
    const rows = this.#valuesAround.all(
      board,
      channel,
      slice[0]!.t_ms - marginMs,
      slice.at(-1)!.t_ms + marginMs,
    ) as Companion[]
    const byMessage = new Map<number, Companion[]>()
    for (const row of rows) {
      const message = Math.floor(row.id / READINGS_PER_MESSAGE)
      const others = byMessage.get(message)
      if (others) others.push(row)
      else byMessage.set(message, [row])
    }
    return byMessage
  }
}

interface Companion {
  t_ms: number
  id: number
  value: number | null
}

/** Is `a` nearer to `timeMs` than `b`? Of two as near, the earlier: arrival and recomputing must choose the same. */
export function isNearer(a: number, b: number, timeMs: number): boolean {
  const [fromA, fromB] = [Math.abs(a - timeMs), Math.abs(b - timeMs)]
  return fromA < fromB || (fromA === fromB && a < b)
}
