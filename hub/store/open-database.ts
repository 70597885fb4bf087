import { accessSync, constants, existsSync } from 'node:fs'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { HubError, messageOf, systemCode } from '../errors.ts'
import { makeFolder } from './make-folder.ts'
import { first } from './migrations/0001-first.ts'
import { numberedMessages } from './migrations/0002-numbered-messages.ts'
import { spotsAndClocks } from './migrations/0003-spots-and-clocks.ts'
import { studySheets } from './migrations/0004-study-sheets.ts'
import { boardKeys } from './migrations/0005-board-keys.ts'
import { rollups } from './migrations/0006-rollups.ts'
import { noIndexOnArrival } from './migrations/0007-no-index-on-arrival.ts'
import { nearestNeighbours } from './migrations/0008-nearest-neighbours.ts'

/** In order; a number once used is never changed. `user_version` of the file says how many were run. */
const migrations: readonly string[] = [
  first,
  numberedMessages,
  spotsAndClocks,
  studySheets,
  boardKeys,
  rollups,
  noIndexOnArrival,
  nearestNeighbours,
]

/** "TUSK" in ASCII: marks the file as one of ours, `PRAGMA application_id`. */
const APPLICATION_ID = 0x5455534b

/** the database within a data folder */
export const DATABASE_FILE = 'readings.sqlite'

/** the end of the name of a database that is being restored; it takes its place once the former one is aside */
export const RESTORING = '.restoring'

export type SqliteDatabase = Database.Database
/** a prepared statement, by a name that other files' types can use */
export interface SqliteStatement extends Database.Statement {}

/**
 * Opens the database of a data folder for its one writer, making or migrating it where needed.
 * WAL with synchronous FULL: what is committed survives a power cut (SQLite's PRAGMA synchronous page).
 * @throws HubError when the folder cannot be written, the file is not ours or comes from a newer version
 */
export function openForWriting(folder: string): SqliteDatabase {
  let database: SqliteDatabase | undefined
  try {
    makeFolder(folder)
    refuseHalfRestored(join(folder, DATABASE_FILE))
    database = new Database(join(folder, DATABASE_FILE), { timeout: 2000 })
    const id = database.pragma('application_id', { simple: true }) as number
    const version = database.pragma('user_version', { simple: true }) as number
    const isEmpty = database.prepare('SELECT count(*) FROM sqlite_schema').pluck().get() === 0
    if (!isEmpty && id !== APPLICATION_ID)
      throw new HubError(
        'E_DATA_NOT_OURS',
        `${join(folder, DATABASE_FILE)} is a database of another program.`,
      )
    if (version > migrations.length)
      throw new HubError(
        'E_DATA_NEWER',
        `${join(folder, DATABASE_FILE)} was written by a newer Tussock (version ${version} of the file, this one knows ${migrations.length}).`,
      )
    database.pragma('journal_mode = WAL')
    database.pragma('synchronous = FULL')
    database.pragma('foreign_keys = ON')
    database.pragma('cache_size = -8000')
    migrate(database, version)
    return database
  } catch (error) {
    database?.close()
    throw asDataError(error, folder)
  }
}

/** Without this, a restore that was killed at the wrong moment would be followed by an empty database, and no word of it. */
function refuseHalfRestored(file: string): void {
  if (!existsSync(file) && existsSync(`${file}${RESTORING}`))
    throw new HubError(
      'E_RESTORE',
      `A restore into ${file} was broken off; what was there before is beside it.`,
    )
}

/** Opens the same file for reading only, from any thread. The writer must have opened it before. */
export function openForReading(folder: string): SqliteDatabase {
  try {
    const database = new Database(join(folder, DATABASE_FILE), {
      readonly: true,
      fileMustExist: true,
      timeout: 2000,
    })
    database.pragma('cache_size = -8000')
    return database
  } catch (error) {
    throw asDataError(error, folder)
  }
}

function migrate(database: SqliteDatabase, version: number): void {
  for (const [index, sql] of migrations.entries()) {
    if (index < version) continue
    database.transaction(() => {
      database.exec(sql)
      database.pragma(`application_id = ${APPLICATION_ID}`)
      database.pragma(`user_version = ${index + 1}`)
    })()
  }
}

/** Says in the hub's words what a failing data folder or file means; other errors pass as they are. */
export function asDataError(error: unknown, folder: string): unknown {
  if (error instanceof HubError) return error
  const code = systemCode(error)
  if (code.startsWith('SQLITE_IOERR') && isReadOnly(folder))
    return new HubError(
      'E_DATA_READ_ONLY',
      `The disk of ${folder} has become read-only, as a worn card does or one that was pulled out.`,
      { cause: error },
    )
  if (code === 'EACCES' || code === 'EROFS' || code === 'EPERM' || code.startsWith('SQLITE_READONLY'))
    return new HubError('E_DATA_READ_ONLY', `The data folder ${folder} cannot be written.`, { cause: error })
  if (code === 'ENOSPC' || code === 'SQLITE_FULL' || code.startsWith('SQLITE_IOERR'))
    return new HubError('E_DISK', `The disk of ${folder} takes no more (${code}).`, { cause: error })
  if (code === 'SQLITE_BUSY' || code === 'SQLITE_LOCKED')
    return new HubError('E_DATA_LOCKED', `The database in ${folder} is locked by another program.`, {
      cause: error,
    })
  if (code === 'ENOENT' || code === 'ENOTDIR' || code === 'EEXIST')
    return new HubError(
      'E_DATA_READ_ONLY',
      `The data folder ${folder} cannot be made (${messageOf(error)}).`,
      {
        cause: error,
      },
    )
  if (code === 'SQLITE_CANTOPEN')
    return new HubError(
      'E_DATA_READ_ONLY',
      `There is no usable database in ${folder} (${messageOf(error)}).`,
      {
        cause: error,
      },
    )
  if (code === 'SQLITE_NOTADB' || code === 'SQLITE_CORRUPT')
    return new HubError(
      'E_DATA_NOT_OURS',
      `${folder}/${DATABASE_FILE} is not a readable database (${code}).`,
      {
        cause: error,
      },
    )
  return error
}

/** SQLite says of a disk that went read-only while a file was open only that writing failed. */
function isReadOnly(folder: string): boolean {
  try {
    accessSync(folder, constants.W_OK)
    return false
  } catch (error) {
    return systemCode(error) === 'EROFS'
  }
}

/** {@link asDataError} as a person reads it, with its code where it has one. */
export function sayDataError(error: unknown, folder: string): string {
  const known = asDataError(error, folder)
  return known instanceof HubError ? `${known.code}: ${known.said}` : messageOf(known)
}
