import { statSync } from 'node:fs'
import Database from 'better-sqlite3'
import { messageOf } from '../errors.ts'

export interface CheckedDatabase {
  /** null: every page is sound */
  trouble: string | null
  readings: number
  messages: number
  bytes: number
}

/**
 * Reads every page of a database file and its tables against their indexes.
 * @see SQLite, PRAGMA integrity_check
 */
export function checkDatabase(path: string): CheckedDatabase {
  const nothing = { readings: 0, messages: 0, bytes: 0 }
  try {
    const database = new Database(path, { readonly: true, fileMustExist: true, timeout: 5000 })
    try {
      const lines = database.pragma('integrity_check(5)') as { integrity_check: string }[]
      const faults = lines.map(({ integrity_check: line }) => line).filter((line) => line !== 'ok')
      if (faults.length > 0) return { ...nothing, trouble: faults.join('; ') }
      const count = (table: string) =>
        database.prepare(`SELECT count(*) FROM ${table}`).pluck().get() as number
      return {
        trouble: null,
        readings: count('every_reading'),
        messages: count('message'),
        bytes: statSync(path).size,
      }
    } finally {
      database.close()
    }
  } catch (error) {
    return { ...nothing, trouble: messageOf(error) }
  }
}
