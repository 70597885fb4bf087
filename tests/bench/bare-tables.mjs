import { join } from 'node:path'
import Database from 'better-sqlite3'
import { START_MS } from './class-messages.mjs'
import { freshFolder } from './measuring.mjs'

const COLUMNS = `channel INTEGER NOT NULL, t_ms INTEGER NOT NULL, id INTEGER NOT NULL, signal REAL NOT NULL,
  value REAL, uncertainty REAL, flag INTEGER NOT NULL, calibration INTEGER, why TEXT`

const shapes = {
  log: `CREATE TABLE bare (${COLUMNS}) STRICT`,
  keyed: `CREATE TABLE bare (${COLUMNS}, PRIMARY KEY (channel, t_ms, id)) STRICT, WITHOUT ROWID`,
}

/** One table as plain as it can be, written as durably as the hub writes: WAL, synchronous FULL. */
export class BareTable {
  #database
  #insert
  #insertMessage

  constructor(folder, shape) {
    this.#database = new Database(join(folder, 'bare.sqlite'))
    this.#database.pragma('journal_mode = WAL')
    this.#database.pragma('synchronous = FULL')
    this.#database.pragma('cache_size = -16000')
    this.#database.exec(shapes[shape])
    this.#database.exec(
      'CREATE TABLE message (id INTEGER PRIMARY KEY, arrived_ms INTEGER, bytes BLOB) STRICT',
    )
    this.#insert = this.#database.prepare('INSERT INTO bare VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)')
    this.#insertMessage = this.#database.prepare('INSERT INTO message (arrived_ms, bytes) VALUES (?, ?)')
  }

  /** One transaction. */
  add(rows, messages = []) {
    this.#database.transaction(() => {
      for (const { arrivedMs, bytes } of messages) this.#insertMessage.run(arrivedMs, bytes)
      for (const row of rows) this.#insert.run(...row)
    })()
  }

  close() {
    this.#database.pragma('wal_checkpoint(TRUNCATE)')
    this.#database.close()
  }
}

/** Rows a second that a plain keyed table takes, in transactions as large as those of recomputing. */
export function bareKeyedRate(rows) {
  const table = new BareTable(freshFolder(), 'keyed')
  const batches = Array.from({ length: Math.ceil(rows / 4000) }, (_, batch) =>
    Array.from({ length: 4000 }, (_, n) => {
      const place = batch * 4000 + n
      return [Math.floor(place / 20_000), START_MS + place * 1000, place * 1024, 11.5, 11, 0.05, 1, 1, null]
    }),
  )
  const begun = performance.now()
  for (const batch of batches) table.add(batch)
  const seconds = (performance.now() - begun) / 1000
  table.close()
  return (batches.length * 4000) / seconds
}

export function sqliteVersion() {
  const database = new Database(':memory:')
  const version = database.prepare('SELECT sqlite_version()').pluck().get()
  database.close()
  return version
}
