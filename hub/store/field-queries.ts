import type { SqliteDatabase, SqliteStatement } from './open-database.ts'
import { READINGS_PER_MESSAGE } from './store.ts'

/** of a board, to tell how late its messages come */
const MESSAGES_LOOKED_AT = 50

/** What the pages of the field ask of the store: extremes, and clocks of boards. */
export class FieldQueries {
  readonly #extremes: SqliteStatement
  readonly #shifted: SqliteStatement
  readonly #channels: SqliteStatement
  readonly #newest: SqliteStatement
  readonly #lags: SqliteStatement
  readonly #pending: SqliteStatement

  constructor(database: SqliteDatabase) {
    this.#extremes = database.prepare(
      `SELECT min(value) AS lowest, max(value) AS highest
       FROM every_reading WHERE channel = @channel AND t_ms >= @fromMs AND t_ms <= @toMs AND flag IN (1, 2)`,
    )
    this.#shifted = database
      .prepare(
        `SELECT EXISTS (SELECT 1 FROM message JOIN board ON board.id = message.board
                        WHERE board.name = @board AND first_ms <= @toMs AND last_ms >= @fromMs
                          AND time_origin = 'shifted to arrival' AND shift_ms = 0)`,
      )
      .pluck()
    this.#channels = database
      .prepare('SELECT channel.id FROM channel JOIN board ON board.id = channel.board WHERE board.name = ?')
      .pluck()
    this.#newest = database
      .prepare(
        `SELECT id / ${READINGS_PER_MESSAGE} FROM every_reading
         WHERE channel = @channel AND t_ms >= @fromMs ORDER BY t_ms DESC LIMIT ${MESSAGES_LOOKED_AT}`,
      )
      .pluck()
    this.#lags = database.prepare(
      `SELECT time_origin AS origin, arrived_ms - last_ms AS lagMs
       FROM message WHERE id IN (SELECT value FROM json_each(@messages)) AND first_ms >= @fromMs
       ORDER BY first_ms DESC LIMIT ${MESSAGES_LOOKED_AT}`,
    )
    this.#pending = database.prepare('SELECT board FROM reclock').pluck()
  }

  /** The lowest and highest value that no test has found fault with; null where there is none. */
  extremes(channel: number, fromMs: number, toMs: number): { lowest: number | null; highest: number | null } {
    return this.#extremes.get({ channel, fromMs, toMs }) as { lowest: number | null; highest: number | null }
  }

  /** The board gave impossible times in that span, ends included, and nobody has put them right since. */
  hasImpossibleClock(board: string, fromMs: number, toMs: number): boolean {
    return this.#shifted.get({ board, fromMs, toMs }) === 1
  }

  /** Of the newest messages: where their times came from, and how long after its last reading each arrived, ms. */
  clockLags(board: string, fromMs: number): { origin: string; lagMs: number }[] {
    // by way of the readings, which are found by their time
    const newest = (this.#channels.all(board) as number[]).flatMap(
      (channel) => this.#newest.all({ channel, fromMs }) as number[],
    )
    return this.#lags.all({ messages: JSON.stringify([...new Set(newest)]), fromMs }) as {
      origin: string
      lagMs: number
    }[]
  }

  /** Boards whose messages are still to be moved to the times a clock correction gives them. */
  clocksPending(): Set<string> {
    return new Set(this.#pending.all() as string[])
  }
}
