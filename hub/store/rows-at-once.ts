import type { SqliteDatabase, SqliteStatement } from './open-database.ts'

type Cell = number | string | Uint8Array | null

/** Stores rows within a transaction, many by one statement: of many together each costs two thirds of one alone. */
export class RowsAtOnce {
  readonly #columns: number
  readonly #one: SqliteStatement
  readonly #many: SqliteStatement
  readonly #cells: Cell[]
  #used = 0

  /**
   * @param columns  with commas
   * @param anew  those that are replaced where there is a row of that key already
   */
  constructor(database: SqliteDatabase, table: string, columns: string, atOnce: number, anew = '') {
    this.#columns = columns.split(', ').length
    const row = `(${Array(this.#columns).fill('?').join(', ')})`
    const into = `INSERT INTO ${table} (${columns}) VALUES`
    const replaced = anew.split(', ').map((column) => `${column} = excluded.${column}`)
    const onConflict = anew === '' ? '' : `ON CONFLICT DO UPDATE SET ${replaced.join(', ')}`
    this.#one = database.prepare(`${into} ${row} ${onConflict}`)
    this.#many = database.prepare(`${into} ${Array(atOnce).fill(row).join(', ')} ${onConflict}`)
    this.#cells = Array<Cell>(atOnce * this.#columns).fill(null)
  }

  /** A transaction begins: what one that broke off had left is gone with it. */
  begin(): this {
    this.#used = 0
    return this
  }

  /** The next cell of a row, in the order of the columns. */
  put(cell: Cell): this {
    this.#cells[this.#used++] = cell
    if (this.#used === this.#cells.length) {
      this.#used = 0
      this.#many.run(...this.#cells)
    }
    return this
  }

  /** Stores what waits for more. */
  finish(): void {
    const length = this.#used
    this.#used = 0
    for (let at = 0; at < length; at += this.#columns)
      this.#one.run(...this.#cells.slice(at, at + this.#columns))
  }
}
