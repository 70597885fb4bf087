import type { SqliteDatabase } from './open-database.ts'
import { READINGS_PER_MESSAGE } from './store.ts'

/** A message that was stored under its numbers, and where its readings are. */
export interface KeptMessage {
  id: number
  /** its rows of the inbox, which follow one another; null once they are sealed */
  inbox: { firstRow: number; rows: number } | null
}

/** What is known of one start-up of a board. */
interface StartUp {
  /** ids of messages since the last sealing, by their number */
  recent: Map<number, number>
  /** the highest number that is sealed: most messages are newer, and need not be looked for */
  highestSealed: number
}

/**
 * Recognises a message that was stored before by its board, start-up and number. Those since the last sealing are
 * held in memory, and read again from the file when it is opened; older ones are found in `numbered`.
 */
export class NumberedMessages {
  readonly #sql: ReturnType<typeof prepare>
  /** by board, then start-up */
  readonly #startUps = new Map<number, Map<number | null, StartUp>>()
  /** the first message since the last sealing, and of it and those after it, the row of the inbox at which each begins */
  #firstId = 0
  #firstRows: number[] = []
  #nextRow = 1
  #recent = 0

  constructor(database: SqliteDatabase) {
    this.#sql = prepare(database)
    this.reload()
  }

  /** how many are held in memory */
  get recent(): number {
    return this.#recent
  }

  find(board: number, startup: number | null, number: number): KeptMessage | null {
    const { recent, highestSealed } = this.#startUp(board, startup)
    const id = recent.get(number)
    if (id !== undefined) return { id, inbox: this.#rowsOf(id) }
    if (number > highestSealed) return null
    const sealed = this.#sql.find.get(board, startup, number) as number | undefined
    return sealed === undefined ? null : { id: sealed, inbox: null }
  }

  /** A message of so many readings was stored, numbered or not; messages come in the order of their ids. */
  add(board: number, startup: number | null, number: number | null, id: number, rows: number): void {
    if (this.#firstRows.length === 0) this.#firstId = id
    this.#firstRows.push(this.#nextRow)
    this.#nextRow += rows
    if (number === null) return
    this.#startUp(board, startup).recent.set(number, id)
    this.#recent++
  }

  /** Within the transaction that seals the readings; {@link clear} once that is durable. */
  seal(): void {
    this.#sql.seal.run()
    this.#sql.setSealed.run()
  }

  clear(): void {
    this.#startUps.clear()
    this.#firstRows = []
    this.#nextRow = 1
    this.#recent = 0
  }

  /** Reads what is not yet sealed from the file: at the start, and after a transaction that came to nothing. */
  reload(): void {
    const rowsOf = new Map(this.#sql.rowsOfMessages.all() as [number, number][])
    const inbox = this.#sql.beginning.get() as { row: number | null; id: number | null }
    const last = this.#sql.lastMessage.get() as number
    const unsealed = new Map(
      (this.#sql.unsealed.all() as NumberedMessage[]).map((message) => [message.id, message]),
    )
    this.clear()
    const [firstNumbered = Infinity] = unsealed.keys()
    const firstId = Math.min(inbox.id ?? Infinity, firstNumbered)
    this.#nextRow = inbox.row ?? 1
    for (let id = firstId; id <= last; id++) {
      const { board, startup, number } = unsealed.get(id) ?? { board: 0, startup: null, number: null }
      this.add(board, startup, number, id, rowsOf.get(id) ?? 0)
    }
  }

  #rowsOf(id: number): { firstRow: number; rows: number } {
    const place = id - this.#firstId
    const firstRow = this.#firstRows[place]!
    return { firstRow, rows: (this.#firstRows[place + 1] ?? this.#nextRow) - firstRow }
  }

  #startUp(board: number, startup: number | null): StartUp {
    let ofBoard = this.#startUps.get(board)
    if (!ofBoard) {
      ofBoard = new Map()
      this.#startUps.set(board, ofBoard)
    }
    let known = ofBoard.get(startup)
    if (!known) {
      const highest = this.#sql.highest.get(board, startup) as number | null
      known = { recent: new Map(), highestSealed: highest ?? -1 }
      ofBoard.set(startup, known)
    }
    return known
  }
}

interface NumberedMessage {
  board: number
  startup: number | null
  number: number
  id: number
}

const UNSEALED = `
  FROM message WHERE number IS NOT NULL
    AND id > (SELECT CAST(value AS INTEGER) FROM hub WHERE key = 'numbered-until')`

function prepare(database: SqliteDatabase) {
  const sql = (text: string) => database.prepare(text)
  return {
    find: sql('SELECT message FROM numbered WHERE board = ? AND startup = ? AND number = ?').pluck(),
    highest: sql('SELECT max(number) FROM numbered WHERE board = ? AND startup = ?').pluck(),
    unsealed: sql(`SELECT board, startup, number, id ${UNSEALED} ORDER BY id`),
    rowsOfMessages: sql(`SELECT id / ${READINGS_PER_MESSAGE}, count(*) FROM inbox GROUP BY 1`).raw(),
    beginning: sql(`SELECT min(rowid) AS row, min(id) / ${READINGS_PER_MESSAGE} AS id FROM inbox`),
    lastMessage: sql('SELECT coalesce(max(id), 0) FROM message').pluck(),
    seal: sql(`INSERT INTO numbered SELECT board, startup, number, id ${UNSEALED} ORDER BY 1, 2, 3`),
    setSealed: sql(
      `UPDATE hub SET value = (SELECT coalesce(max(id), 0) FROM message) WHERE key = 'numbered-until'`,
    ),
  }
}
