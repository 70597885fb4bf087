import { Spot } from '../contract/spot.ts'
import type { SqliteDatabase, SqliteStatement } from './open-database.ts'

/** Spot readings, one row each. A change replaces the row; what it was before stands in its amendments. */
export class SpotTable {
  readonly #all: SqliteStatement
  readonly #add: SqliteStatement
  readonly #replace: SqliteStatement

  constructor(database: SqliteDatabase) {
    this.#all = database.prepare('SELECT document FROM spot ORDER BY id').pluck()
    this.#add = database.prepare('INSERT OR IGNORE INTO spot (id, survey, document) VALUES (?, ?, ?)')
    this.#replace = database.prepare('UPDATE spot SET document = ? WHERE id = ?')
  }

  all(): Spot[] {
    return this.#all.all().map((document) => Spot.parse(JSON.parse(document as string)))
  }

  /** @returns false when it was there already; then nothing is changed */
  add(spot: Spot): boolean {
    return this.#add.run(spot.id, spot.survey, JSON.stringify(spot)).changes === 1
  }

  replace(spot: Spot): void {
    this.#replace.run(JSON.stringify(spot), spot.id)
  }
}
