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
  /** of where a time may come from, what a reading is worth depends on this one alone; all others are told as the board's */
  time_origin: Extract<TimeOrigin, 'shifted to arrival' | 'board clock'>
}

/** Where to go on reading: the first time, and within it the first id. */
export interface ReadingCursor {
  fromMs: number
  fromId: number
}

/** Reads the readings of a channel in slices, in order, and the values that came with them in the same messages. */
export class ReadingsToAppraise {
  readonly #slice
  readonly #shifted
  readonly #valuesAround

  /** @param table `reading` where the inbox has been sealed before, otherwise `every_reading` */
  constructor(database: SqliteDatabase, table: 'reading' | 'every_reading') {
    this.#slice = database
      .prepare(
        `SELECT t_ms, id, signal, value, flag FROM ${table}
         WHERE channel = ? AND (t_ms, id) >= (?, ?) AND t_ms < ? ORDER BY t_ms, id LIMIT ?`,
      )
      .raw()
    this.#shifted = database
      .prepare(
        `SELECT id FROM message WHERE board = (SELECT board FROM channel WHERE id = @channel)
           AND first_ms <= @toMs AND last_ms >= @fromMs AND time_origin = 'shifted to arrival'`,
      )
      .pluck()
    this.#valuesAround = database
      .prepare(
        `SELECT t_ms, every_reading.id, value FROM every_reading
         WHERE channel IN (SELECT channel.id FROM channel JOIN board ON board.id = channel.board
                           WHERE board.name = @board AND channel.name = @channel)
           AND t_ms BETWEEN @fromMs AND @toMs AND every_reading.id BETWEEN @firstId AND @lastId
         ORDER BY every_reading.id`,
      )
      .raw()
  }

  slice(channel: number, from: ReadingCursor, toMs: number, rows: number): StoredReading[] {
    const found = this.#slice.all(channel, from.fromMs, from.fromId, toMs, rows) as SliceRow[]
    if (found.length === 0) return []
    const span = { channel, fromMs: found[0]![0], toMs: found.at(-1)![0] }
    const shifted = new Set(this.#shifted.all(span) as number[])
    return found.map(([t_ms, id, signal, value, flag]) => {
      const isShifted = shifted.size > 0 && shifted.has(Math.floor(id / READINGS_PER_MESSAGE))
      return { t_ms, id, signal, value, flag, time_origin: isShifted ? 'shifted to arrival' : 'board clock' }
    })
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
    let [firstId, lastId] = [Infinity, -Infinity]
    for (const { id } of slice) {
      if (id < firstId) firstId = id
      if (id > lastId) lastId = id
    }
    const firstOf = (id: number) => Math.floor(id / READINGS_PER_MESSAGE) * READINGS_PER_MESSAGE
    const rows = this.#valuesAround.all({
      board,
      channel,
      fromMs: slice[0]!.t_ms - marginMs,
      toMs: slice.at(-1)!.t_ms + marginMs,
      firstId: firstOf(firstId),
      lastId: firstOf(lastId) + READINGS_PER_MESSAGE - 1,
    }) as [number, number, number | null][]
    const byMessage = new Map<number, Companion[]>()
    for (const [t_ms, id, value] of rows) {
      const message = Math.floor(id / READINGS_PER_MESSAGE)
      const others = byMessage.get(message)
      if (others) others.push({ t_ms, value })
      else byMessage.set(message, [{ t_ms, value }])
    }
    return byMessage
  }
}

type SliceRow = [t_ms: number, id: number, signal: number, value: number | null, flag: Flag]

interface Companion {
  t_ms: number
  value: number | null
}

/** Is `a` nearer to `timeMs` than `b`? Of two as near, the earlier: arrival and recomputing must choose the same. */
export function isNearer(a: number, b: number, timeMs: number): boolean {
  const [fromA, fromB] = [Math.abs(a - timeMs), Math.abs(b - timeMs)]
  return fromA < fromB || (fromA === fromB && a < b)
}
