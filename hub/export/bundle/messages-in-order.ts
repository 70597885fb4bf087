import type { SqliteDatabase, SqliteStatement } from '../../store/open-database.ts'
import { READINGS_PER_MESSAGE, type ReadingRow, type TimeOrigin } from '../../store/store.ts'

/** Messages read at once. */
const MESSAGES = 500

/** A message as it came, and its signals in their order with what was made of them. */
export interface StoredMessage {
  id: number
  board: string
  source: string
  arrivedMs: number
  startup: number | null
  number: number | null
  timeOrigin: TimeOrigin
  /** by how much its times were moved, because its board’s clock was wrong */
  shiftMs: number
  bytes: Uint8Array
  readings: StoredSignal[]
}

export interface StoredSignal extends ReadingRow {
  channelName: string
  unit: string
  calibrationId: string | null
}

type MessageRow = Omit<StoredMessage, 'readings'> & { boardId: number; firstMs: number; lastMs: number }

/** The messages of some boards whose readings are sealed, in the order they came, a few hundred at a time. */
export function* messagesInOrder(
  database: SqliteDatabase,
  boards: ReadonlySet<string>,
): Generator<StoredMessage[]> {
  const sql = prepare(database)
  for (let afterId = 0; ; ) {
    const rows = sql.messages.all(afterId, MESSAGES) as MessageRow[]
    const wanted = rows.filter(({ board }) => boards.has(board))
    if (wanted.length > 0) yield withReadings(sql, wanted)
    if (rows.length < MESSAGES) return
    afterId = rows.at(-1)!.id
  }
}

function withReadings(sql: ReturnType<typeof prepare>, rows: readonly MessageRow[]): StoredMessage[] {
  const readings = new Map<number, StoredSignal[]>(rows.map(({ id }) => [id, []]))
  const byBoard = new Map<number, MessageRow[]>()
  for (const row of rows) byBoard.set(row.boardId, [...(byBoard.get(row.boardId) ?? []), row])
  for (const [board, messages] of byBoard) {
    const found = sql.readings.all({
      board,
      fromMs: messages.reduce((least, { firstMs }) => Math.min(least, firstMs), Infinity),
      toMs: messages.reduce((most, { lastMs }) => Math.max(most, lastMs), -Infinity),
      fromId: messages[0]!.id * READINGS_PER_MESSAGE,
      toId: (messages.at(-1)!.id + 1) * READINGS_PER_MESSAGE - 1,
    }) as StoredSignal[]
    for (const row of found) readings.get(Math.floor(row.id / READINGS_PER_MESSAGE))?.push(row)
  }
  return rows.map(({ boardId: _board, firstMs: _first, lastMs: _last, ...message }) => ({
    ...message,
    readings: readings.get(message.id)!.sort((one, other) => one.id - other.id),
  }))
}

function prepare(database: SqliteDatabase) {
  const sql = (text: string): SqliteStatement => database.prepare(text)
  return {
    messages: sql(
      `SELECT message.id, message.board AS boardId, board.name AS board, source, arrived_ms AS arrivedMs, startup, number,
              time_origin AS timeOrigin, shift_ms AS shiftMs, first_ms AS firstMs, last_ms AS lastMs, bytes
       FROM message JOIN board ON board.id = message.board
       WHERE message.id > ? AND message.id < (SELECT coalesce(min(id) / ${READINGS_PER_MESSAGE}, 9e15) FROM main.inbox)
       ORDER BY message.id LIMIT ?`,
    ),
    readings: sql(
      `SELECT channel, t_ms AS timeMs, reading.id, signal, value, uncertainty, flag, calibration, why,
              channel.name AS channelName, channel.unit, calibration.id AS calibrationId
       FROM channel CROSS JOIN reading ON reading.channel = channel.id
       LEFT JOIN calibration ON calibration.ref = reading.calibration
       WHERE channel.board = @board AND t_ms BETWEEN @fromMs AND @toMs AND reading.id BETWEEN @fromId AND @toId`,
    ),
  }
}
