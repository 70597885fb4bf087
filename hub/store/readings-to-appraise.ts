import type { Flag } from '../contract/flag.ts'
import type { SqliteDatabase, SqliteStatement } from './open-database.ts'
import { READINGS_PER_MESSAGE, type TimeOrigin } from './store.ts'

/** A stored reading as it is judged again. */
export interface StoredReading {
  t_ms: number
  id: number
  signal: number
  /** of where a time may come from, what a reading is worth depends on this one alone; all others are told as the board's */
  time_origin: Extract<TimeOrigin, 'shifted to arrival' | 'board clock'>
}

/** …and what was made of it before. */
export interface JudgedReading extends StoredReading {
  value: number | null
  flag: Flag
}

/** Where to go on reading: the first time, and within it the first id. */
export interface ReadingCursor {
  fromMs: number
  fromId: number
}

/** Reads the readings of a channel in slices, in order, and the values that came with them in the same messages. */
export class ReadingsToAppraise {
  readonly #slice
  readonly #judged
  readonly #shifted
  readonly #around: ReadAround

  /** @param table `reading` where the inbox has been sealed before, otherwise `every_reading` */
  constructor(database: SqliteDatabase, table: 'reading' | 'every_reading') {
    const slices = (columns: string) =>
      database
        .prepare(
          `SELECT ${columns} FROM ${table}
           WHERE channel = ? AND (t_ms, id) >= (?, ?) AND t_ms < ? ORDER BY t_ms, id LIMIT ?`,
        )
        .raw()
    this.#slice = slices('t_ms, id, signal')
    this.#judged = slices('t_ms, id, signal, value, flag')
    this.#shifted = database
      .prepare(
        `SELECT id FROM message WHERE board = (SELECT board FROM channel WHERE id = @channel)
           AND first_ms <= @toMs AND last_ms >= @fromMs AND time_origin = 'shifted to arrival'`,
      )
      .pluck()
    this.#around = {
      channels: database
        .prepare(
          `SELECT channel.id FROM channel JOIN board ON board.id = channel.board
           WHERE board.name = ? AND channel.name = ?`,
        )
        .pluck(),
      values: database
        .prepare(
          `SELECT t_ms, id, value FROM ${table} WHERE channel = ? AND t_ms BETWEEN ? AND ? ORDER BY t_ms LIMIT ?`,
        )
        .raw(),
    }
  }

  slice(channel: number, from: ReadingCursor, toMs: number, rows: number): StoredReading[] {
    const found = this.#slice.all(channel, from.fromMs, from.fromId, toMs, rows) as SliceRow[]
    const originOf = this.#origins(channel, found)
    return found.map(([t_ms, id, signal]) => ({ t_ms, id, signal, time_origin: originOf(id) }))
  }

  judged(channel: number, from: ReadingCursor, toMs: number, rows: number): JudgedReading[] {
    const found = this.#judged.all(channel, from.fromMs, from.fromId, toMs, rows) as JudgedRow[]
    const originOf = this.#origins(channel, found)
    return found.map(([t_ms, id, signal, value, flag]) => ({
      ...{ t_ms, id, signal, value, flag },
      time_origin: originOf(id),
    }))
  }

  #origins(
    channel: number,
    rows: readonly (SliceRow | JudgedRow)[],
  ): (id: number) => StoredReading['time_origin'] {
    const span = { channel, fromMs: rows[0]?.[0] ?? 0, toMs: rows.at(-1)?.[0] ?? 0 }
    const shifted = new Set(this.#shifted.all(span) as number[])
    return (id) =>
      shifted.size > 0 && shifted.has(Math.floor(id / READINGS_PER_MESSAGE))
        ? 'shifted to arrival'
        : 'board clock'
  }

  /** What came with the readings of one board in the same messages; good until the store changes. */
  companions(board: string): Companions {
    return new Companions(this.#around, board)
  }
}

/** What came in one message, but further apart in time than this, says nothing about each other. Common practice, no source. */
export const COMPANIONS_WITHIN_MS = 3_600_000
/** Slices follow one another in time: so many times what the present one needs is read at once, unless that is too much. */
const AHEAD = 8
const ROWS_AHEAD = 50_000
const NO_LIMIT = -1

interface ReadAround {
  channels: SqliteStatement
  values: SqliteStatement
}

/** Finds what another channel of a board measured in the same message. */
export class Companions {
  readonly #around: ReadAround
  readonly #board: string
  readonly #known = new Map<string, KnownValues>()
  #fromMs = 0
  #toMs = 0

  constructor(around: ReadAround, board: string) {
    this.#around = around
    this.#board = board
  }

  /** The readings that will be asked about next. */
  begin(slice: readonly StoredReading[]): this {
    this.#fromMs = (slice[0]?.t_ms ?? 0) - COMPANIONS_WITHIN_MS
    this.#toMs = (slice.at(-1)?.t_ms ?? 0) + COMPANIONS_WITHIN_MS
    return this
  }

  /** Of several values in the message the one nearest in time, or null where there is none. */
  nearest(channel: string, readingId: number, timeMs: number): number | null {
    const { ids, rows } = this.#valuesOf(channel)
    const firstId = readingId - (readingId % READINGS_PER_MESSAGE)
    let nearest: CompanionRow | null = null
    for (let at = firstAtLeast(ids, firstId); at < ids.length; at++) {
      if (ids[at]! >= firstId + READINGS_PER_MESSAGE) break
      const row = rows[at]!
      if (Math.abs(row[0] - timeMs) > COMPANIONS_WITHIN_MS) continue
      if (nearest === null || isNearer(row[0], nearest[0], timeMs)) nearest = row
    }
    return nearest === null ? null : nearest[2]
  }

  #valuesOf(channel: string): KnownValues {
    const known = this.#known.get(channel)
    if (known && known.fromMs <= this.#fromMs && known.toMs >= this.#toMs) return known
    const aheadMs = this.#toMs + AHEAD * (this.#toMs - this.#fromMs - 2 * COMPANIONS_WITHIN_MS)
    const values =
      this.#read(channel, aheadMs, ROWS_AHEAD) ?? this.#read(channel, this.#toMs, NO_LIMIT) ?? NONE_KNOWN
    this.#known.set(channel, values)
    return values
  }

  /** @returns null when there are as many as the limit */
  #read(channel: string, toMs: number, limit: number): KnownValues | null {
    const fromMs = this.#fromMs
    const rows: CompanionRow[] = []
    for (const id of this.#around.channels.all(this.#board, channel)) {
      const found = this.#around.values.all(id, fromMs, toMs, limit) as CompanionRow[]
      if (found.length === limit) return null
      for (const row of found) rows.push(row)
    }
    // a board sends in the order of time, but for a backlog
    if (rows.some((row, place) => place > 0 && row[1] < rows[place - 1]![1])) rows.sort((a, b) => a[1] - b[1])
    return { fromMs, toMs, rows, ids: rows.map(([, id]) => id) }
  }
}

interface KnownValues {
  fromMs: number
  toMs: number
  /** by id */
  rows: CompanionRow[]
  ids: number[]
}

const NONE_KNOWN: KnownValues = { fromMs: Infinity, toMs: -Infinity, rows: [], ids: [] }

type CompanionRow = [t_ms: number, id: number, value: number | null]

/** The place of the first of rising numbers that is not below another. */
function firstAtLeast(rising: readonly number[], least: number): number {
  let [low, high] = [0, rising.length]
  while (low < high) {
    const middle = (low + high) >> 1
    if (rising[middle]! < least) low = middle + 1
    else high = middle
  }
  return low
}

type SliceRow = [t_ms: number, id: number, signal: number]
type JudgedRow = [...SliceRow, value: number | null, flag: Flag]

/** Is `a` nearer to `timeMs` than `b`? Of two as near, the earlier: arrival and recomputing must choose the same. */
export function isNearer(a: number, b: number, timeMs: number): boolean {
  const [fromA, fromB] = [Math.abs(a - timeMs), Math.abs(b - timeMs)]
  return fromA < fromB || (fromA === fromB && a < b)
}
