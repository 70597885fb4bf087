import type { SqliteDatabase, SqliteStatement } from './open-database.ts'

/** Which boards have a key, and its hash. */
export class KeyTable {
  readonly #all: SqliteStatement
  readonly #set: SqliteStatement
  readonly #remove: SqliteStatement

  constructor(database: SqliteDatabase) {
    this.#all = database.prepare('SELECT board, hash, made_ms AS madeMs FROM board_key')
    this.#set = database.prepare(
      `INSERT INTO board_key (board, hash, made_ms) VALUES (?, ?, ?)
       ON CONFLICT (board) DO UPDATE SET hash = excluded.hash, made_ms = excluded.made_ms`,
    )
    this.#remove = database.prepare('DELETE FROM board_key WHERE board = ?')
  }

  all(): { board: string; hash: Buffer; madeMs: number }[] {
    return this.#all.all() as { board: string; hash: Buffer; madeMs: number }[]
  }

  set(board: string, hash: Buffer, madeMs: number): void {
    this.#set.run(board, hash, madeMs)
  }

  /** @returns false when the board had none */
  remove(board: string): boolean {
    return this.#remove.run(board).changes === 1
  }
}
