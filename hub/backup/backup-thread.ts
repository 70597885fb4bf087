import { closeSync, fsyncSync, openSync, renameSync, rmSync } from 'node:fs'
import { dirname } from 'node:path'
import { parentPort, workerData } from 'node:worker_threads'
import Database from 'better-sqlite3'
import { messageOf, systemCode } from '../errors.ts'
import { checkDatabase } from './check-database.ts'

/** What the thread is asked for, and what it answers. */
export interface BackupWish {
  database: string
  /** whole path of the copy; it appears only when it is complete and proved */
  to: string
}

export type BackupAnswer =
  | { ok: true; readings: number; messages: number; bytes: number }
  | { ok: false; code: string; message: string }

// A thread of its own, because copying a large database takes seconds. VACUUM INTO reads one moment of the database
// (SQLite, "VACUUM INTO") while the hub goes on writing.

const { database, to } = workerData as BackupWish
const unfinished = `${to}.part`

function copy(): BackupAnswer {
  rmSync(unfinished, { force: true })
  const source = new Database(database, { readonly: true, fileMustExist: true, timeout: 5000 })
  try {
    source.prepare('VACUUM INTO ?').run(unfinished)
  } finally {
    source.close()
  }
  sync(unfinished)
  // read back what was written, before it counts as a backup
  const checked = checkDatabase(unfinished)
  if (checked.trouble !== null) return { ok: false, code: 'E_BACKUP', message: checked.trouble }
  renameSync(unfinished, to)
  sync(dirname(to))
  const { readings, messages, bytes } = checked
  return { ok: true, readings, messages, bytes }
}

function sync(path: string): void {
  const file = openSync(path, 'r')
  try {
    fsyncSync(file)
  } finally {
    closeSync(file)
  }
}

let answer: BackupAnswer
try {
  answer = copy()
} catch (error) {
  rmSync(unfinished, { force: true })
  answer = { ok: false, code: systemCode(error), message: messageOf(error) }
}
parentPort!.postMessage(answer)
