import {
  accessSync,
  closeSync,
  constants,
  existsSync,
  fsyncSync,
  openSync,
  readFileSync,
  rmSync,
  statfsSync,
  statSync,
  writeSync,
} from 'node:fs'
import { join } from 'node:path'
import { checkDatabase } from '../backup/check-database.ts'
import { messageOf } from '../errors.ts'
import { ADDRESS_FILE, isHeld } from '../store/hold-folder.ts'
import { DATABASE_FILE } from '../store/open-database.ts'
import { type Finding, ok, warning, wrong } from './finding.ts'

/** A class's day of readings is some tens of MB; below this a survey may not end well. */
const LEAST_FREE_BYTES = 200_000_000
const LEAST_TO_RUN_BYTES = 20_000_000
const TRIAL = '.doctor-trial'

/** The folder may be written, and what is written there can be read back after it was forced to the disk. */
export function lookAtFolder(folder: string): Finding {
  if (!existsSync(folder)) return ok('folder', `${folder} is not there yet; the hub makes it.`)
  const file = join(folder, TRIAL)
  try {
    accessSync(folder, constants.R_OK | constants.W_OK | constants.X_OK)
    const descriptor = openSync(file, 'w')
    writeSync(descriptor, TRIAL)
    fsyncSync(descriptor)
    closeSync(descriptor)
    if (readFileSync(file, 'utf8') !== TRIAL) throw new Error('what was read back is not what was written')
    return ok('folder', `${folder} can be written, and what is written is there.`)
  } catch (error) {
    return wrong(
      'folder',
      `${folder} cannot be written (${messageOf(error)}).`,
      'Correct its permissions, or start the hub with another --data FOLDER. A card that was pulled out while in use may be read-only until it is checked.',
    )
  } finally {
    rmSync(file, { force: true })
  }
}

export function lookAtDatabase(folder: string): Finding {
  const file = join(folder, DATABASE_FILE)
  if (!existsSync(file)) return ok('database', 'There are no readings yet.')
  const checked = checkDatabase(file)
  if (checked.trouble !== null)
    return wrong(
      'database',
      `The database is damaged: ${checked.trouble}`,
      'Stop the hub, copy the data folder away as it is, and run “tussock restore BACKUP” with your last backup.',
    )
  const megabytes = Math.ceil(statSync(file).size / 1e6)
  return ok(
    'database',
    `${checked.readings} readings in ${checked.messages} messages, ${megabytes} MB; every page is sound.`,
  )
}

export function lookAtDisk(folder: string): Finding {
  if (!existsSync(folder)) return ok('disk', 'The folder is not there yet.')
  const { bavail, bsize } = statfsSync(folder)
  const free = bavail * bsize
  const said = `${Math.round(free / 1e6)} MB free on the disk of ${folder}.`
  if (free < LEAST_TO_RUN_BYTES) return wrong('disk', said, 'Free some space before you start.')
  if (free < LEAST_FREE_BYTES) return warning('disk', said, 'Free some space before a long survey.')
  return ok('disk', said)
}

/** Whether a hub has the folder open now, and where it answers. */
export function lookAtHub(folder: string): Finding {
  if (!existsSync(folder) || !isHeld(folder)) return ok('hub', 'No hub is running on this folder.')
  try {
    const { address } = JSON.parse(readFileSync(join(folder, ADDRESS_FILE), 'utf8')) as { address: string }
    return ok('hub', `A hub is running on it, at ${address}.`)
  } catch {
    return ok('hub', 'A hub is running on it.')
  }
}
