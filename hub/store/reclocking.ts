import type { SqliteDatabase, SqliteStatement } from './open-database.ts'
import type { Rolling } from './rolling.ts'
import { type ClockWork, READINGS_PER_MESSAGE } from './store.ts'

/** Looked at and, where they are the board's, moved at once: more would hold up intake. */
const IDS = 5000
const MESSAGES = 500

interface Channel {
  id: number
  name: string
}

interface MessageTimes {
  id: number
  first_ms: number
  last_ms: number
  shift_ms: number
}

/**
 * Moves the messages of boards to the times that their clock corrections give. A message knows by how much it was moved,
 * so that the work can end anywhere, is done once, and can be taken back exactly. Runs on sealed readings.
 */
export class Reclocking {
  readonly #sql: ReturnType<typeof prepare>
  readonly #database: SqliteDatabase
  readonly #rolling: Rolling
  /** the board being worked on, and up to which message of how many it is done; later ones come in put right */
  #cursor: {
    board: string
    done: number
    last: number
    touched: Map<number, { fromMs: number; toMs: number }>
  } | null = null

  /** boards none of whose messages can have been moved yet for the correction that is due */
  readonly #notBegun = new Set<string>()

  constructor(database: SqliteDatabase, rolling: Rolling) {
    this.#database = database
    this.#rolling = rolling
    this.#sql = prepare(database)
  }

  get isDue(): boolean {
    return this.#sql.next.get() !== undefined
  }

  /** Within the transaction that saves the survey. */
  add(board: string): void {
    const { changes } = this.#sql.add.run(board)
    if (changes > 0) this.#notBegun.add(board)
    if (this.#cursor?.board === board) this.#cursor = null
  }

  /**
   * Looks at some messages of one board.
   * @returns messages moved, or null when nothing is due
   */
  some({ shiftOf, isCompensated }: ClockWork): { moved: number; isLast: boolean } | null {
    const board = this.#sql.next.get() as string | undefined
    if (board === undefined) return null
    if (this.#cursor?.board !== board) {
      this.#cursor = { board, done: 0, last: this.#sql.last.get() as number, touched: new Map() }
      // begun before, by a hub that ended or for a correction that was changed: what it had moved is not known any more
      if (!this.#notBegun.delete(board))
        for (const { id } of this.#sql.channels.all(board) as Channel[])
          this.#cursor.touched.set(id, { fromMs: -8.64e15, toMs: 8.64e15 - 1 })
    }
    const cursor = this.#cursor
    const some = this.#sql.messages.all({
      board,
      after: cursor.done,
      until: cursor.done + IDS,
    }) as MessageTimes[]
    const done = some.length === MESSAGES ? some.at(-1)!.id : cursor.done + IDS
    let moved = 0
    this.#database
      .transaction(() => {
        const channels = this.#sql.channels.all(board) as Channel[]
        for (const message of some) {
          const wanted = shiftOf(board, message.first_ms - message.shift_ms)
          if (wanted === message.shift_ms) continue
          this.#move(message, wanted, channels)
          moved++
        }
        if (done < cursor.last) return
        this.#sql.end.run(board)
        const isLater = ({ name }: Channel) => Number(isCompensated(board, name))
        for (const { id } of channels.toSorted((one, other) => isLater(one) - isLater(other))) {
          const span = cursor.touched.get(id)
          if (span) this.#sql.addRecompute.run(id, span.fromMs, span.toMs + 1)
        }
      })
      .immediate()
    cursor.done = done
    if (done >= cursor.last) this.#cursor = null
    return { moved, isLast: !this.isDue }
  }

  #move(message: MessageTimes, shiftMs: number, channels: readonly Channel[]): void {
    const byMs = shiftMs - message.shift_ms
    const firstId = message.id * READINGS_PER_MESSAGE
    this.#sql.moveMessage.run({ byMs, shiftMs, id: message.id })
    for (const { id: channel } of channels) {
      const { changes } = this.#sql.moveReadings.run({
        byMs,
        channel,
        fromMs: message.first_ms,
        toMs: message.last_ms,
        firstId,
        lastId: firstId + READINGS_PER_MESSAGE - 1,
      })
      if (changes === 0) continue
      this.#rolling.mark(channel, message.first_ms, message.last_ms, changes)
      this.#rolling.mark(channel, message.first_ms + byMs, message.last_ms + byMs, changes)
      const touched = this.#cursor!.touched.get(channel) ?? { fromMs: Infinity, toMs: -Infinity }
      this.#cursor!.touched.set(channel, {
        fromMs: Math.min(touched.fromMs, message.first_ms, message.first_ms + byMs),
        toMs: Math.max(touched.toMs, message.last_ms, message.last_ms + byMs),
      })
    }
  }
}

function prepare(database: SqliteDatabase) {
  const sql = (text: string): SqliteStatement => database.prepare(text)
  return {
    next: sql('SELECT board FROM reclock ORDER BY board LIMIT 1').pluck(),
    add: sql('INSERT OR IGNORE INTO reclock (board) VALUES (?)'),
    end: sql('DELETE FROM reclock WHERE board = ?'),
    last: sql('SELECT coalesce(max(id), 0) FROM message').pluck(),
    messages: sql(
      `SELECT id, first_ms, last_ms, shift_ms FROM message
       WHERE id > @after AND id <= @until AND board = (SELECT id FROM board WHERE name = @board) ORDER BY id LIMIT ${MESSAGES}`,
    ),
    channels: sql(
      'SELECT channel.id, channel.name FROM channel JOIN board ON board.id = channel.board WHERE board.name = ?',
    ),
    moveMessage: sql(
      `UPDATE message SET first_ms = first_ms + CAST(@byMs AS INTEGER), last_ms = last_ms + CAST(@byMs AS INTEGER),
              shift_ms = CAST(@shiftMs AS INTEGER) WHERE id = @id`,
    ),
    moveReadings: sql(
      `UPDATE reading SET t_ms = t_ms + CAST(@byMs AS INTEGER)
       WHERE channel = @channel AND t_ms BETWEEN @fromMs AND @toMs AND id BETWEEN @firstId AND @lastId`,
    ),
    addRecompute: sql('INSERT INTO recompute (channel, from_ms, to_ms) VALUES (?, ?, ?)'),
  }
}
