import type { SqliteDatabase } from './open-database.ts'
import { READINGS_PER_MESSAGE } from './store.ts'

/** A message that was stored under its numbers, and where its readings are. */
export interface KeptMessage {
  id: number
  /** its rows of the inbox, which follow one another; null once they are sealed */
  inbox: { firstRow: number; rows: number } | null
}

/**
 * Recognises a message that was stored before by its board, start-up and number. Those since the last sealing are
 * held in memory, and read again from the file when it is opened; older ones are found in `numbered`.
 */
export class NumberedMessages {
  readonly #sql: ReturnType<typeof prepare>
  readonly #recent = new Map<string, KeptMessage>()
  /** by board and start-up, the highest number that is sealed: most messages are newer, and need not be looked for */
  readonly #highest = new Map<string, number>()
  /** what the transaction under way has added */
  #added: string[] = []

  constructor(database: SqliteDatabase) {
    this.#sql = prepare(database)
    const inInbox = new Map(
      (this.#sql.rowsOfMessages.all() as { id: number; firstRow: number; rows: number }[]).map(
        ({ id, firstRow, rows }) => [id, { firstRow, rows }],
      ),
    )
    for (const { board, startup, number, id } of this.#sql.unsealed.all() as NumberedMessage[]) {
      const inbox = inInbox.get(id) ?? { firstRow: 0, rows: 0 }
      this.#recent.set(keyOf(board, startup, number), { id, inbox })
    }
  }

  /** how many are held in memory */
  get recent(): number {
    return this.#recent.size
  }

  find(board: number, startup: number | null, number: number): KeptMessage | null {
    const recent = this.#recent.get(keyOf(board, startup, number))
    if (recent) return recent
    if (number > this.#highestSealed(board, startup)) return null
    const id = this.#sql.find.get(board, startup, number) as number | undefined
    return id === undefined ? null : { id, inbox: null }
  }

  #highestSealed(board: number, startup: number | null): number {
    const key = `${board}/${startup}`
    let highest = this.#highest.get(key)
    if (highest === undefined) {
      highest = (this.#sql.highest.get(board, startup) as number | null) ?? -1
      this.#highest.set(key, highest)
    }
    return highest
  }

  add(board: number, startup: number | null, number: number, message: KeptMessage): void {
    const key = keyOf(board, startup, number)
    this.#recent.set(key, message)
    this.#added.push(key)
  }

  /** The transaction is durable. */
  keep(): void {
    this.#added = []
  }

  /** The transaction is gone. */
  forget(): void {
    for (const key of this.#added) this.#recent.delete(key)
    this.#added = []
  }

  /** Within the transaction that seals the readings; {@link clear} once that is durable. */
  seal(): void {
    this.#sql.seal.run()
    this.#sql.setSealed.run()
  }

  clear(): void {
    this.#recent.clear()
    this.#highest.clear()
  }
}

interface NumberedMessage {
  board: number
  startup: number
  number: number
  id: number
}

function keyOf(board: number, startup: number | null, number: number): string {
  return `${board}/${startup}/${number}`
}

const UNSEALED = `
  FROM message WHERE number IS NOT NULL
    AND id > (SELECT CAST(value AS INTEGER) FROM hub WHERE key = 'numbered-until')`

function prepare(database: SqliteDatabase) {
  const sql = (text: string) => database.prepare(text)
  return {
    find: sql('SELECT message FROM numbered WHERE board = ? AND startup = ? AND number = ?').pluck(),
    highest: sql('SELECT max(number) FROM numbered WHERE board = ? AND startup = ?').pluck(),
    unsealed: sql(`SELECT board, startup, number, id ${UNSEALED}`),
    rowsOfMessages: sql(
      `SELECT id / ${READINGS_PER_MESSAGE} AS id, min(rowid) AS firstRow, count(*) AS rows FROM inbox GROUP BY 1`,
    ),
    seal: sql(`INSERT INTO numbered SELECT board, startup, number, id ${UNSEALED} ORDER BY 1, 2, 3`),
    setSealed: sql(
      `UPDATE hub SET value = (SELECT coalesce(max(id), 0) FROM message) WHERE key = 'numbered-until'`,
    ),
  }
}
