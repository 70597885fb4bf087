import { join } from 'node:path'
import Database from 'better-sqlite3'
import { HubError, systemCode } from '../errors.ts'
import { makeFolder } from './make-folder.ts'
import { asDataError } from './open-database.ts'

/** where the hub that has a data folder writes down its address, for commands */
export const ADDRESS_FILE = 'hub-address.json'

/**
 * Takes a data folder for one hub alone, by an exclusive lock on a small file of its own, which the operating
 * system gives back however the process ends.
 * @returns a function that lets go of the folder
 * @throws HubError `E_DATA_LOCKED` when another hub has it
 */
export function holdFolder(folder: string): () => void {
  try {
    makeFolder(folder)
    const lock = new Database(join(folder, 'in-use.lock'), { timeout: 0 })
    try {
      lock.pragma('journal_mode = DELETE')
      lock.exec('BEGIN EXCLUSIVE')
    } catch (error) {
      lock.close()
      throw error
    }
    return () => lock.close()
  } catch (error) {
    if (systemCode(error).startsWith('SQLITE_BUSY'))
      throw new HubError('E_DATA_LOCKED', `Another hub has the data folder ${folder} open.`, { cause: error })
    throw asDataError(error, folder)
  }
}

/** Whether a hub has a data folder now; looks without taking it. */
export function isHeld(folder: string): boolean {
  try {
    holdFolder(folder)()
    return false
  } catch (error) {
    return error instanceof HubError && error.code === 'E_DATA_LOCKED'
  }
}
