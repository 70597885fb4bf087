import {
  closeSync,
  copyFileSync,
  existsSync,
  fsyncSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { HubError } from '../errors.ts'
import { holdFolder } from '../store/hold-folder.ts'
import { asDataError, DATABASE_FILE, RESTORING } from '../store/open-database.ts'
import { checkDatabase } from './check-database.ts'
import { backupsIn } from './make-backup.ts'

export interface Restored {
  from: string
  readings: number
  messages: number
  /** where the database that was there before is now; null when there was none */
  aside: string | null
}

/**
 * Puts a backup in place of a data folder's database. What was there is put aside, never removed. Refused while a hub
 * uses the folder, and when the backup itself is not sound.
 * @param from  a backup file, or a folder of them: the newest sound one
 * @throws HubError `E_DATA_LOCKED`, `E_RESTORE`
 */
export async function restoreBackup(from: string, dataFolder: string, nowMs: number): Promise<Restored> {
  const letGo = holdFolder(dataFolder)
  try {
    const { file, checked } = await soundBackup(from)
    const target = join(dataFolder, DATABASE_FILE)
    const fresh = `${target}${RESTORING}`
    copyFileSync(file, fresh)
    sync(fresh)
    const aside = putAside(target, nowMs)
    renameSync(fresh, target)
    sync(dataFolder)
    return { from: file, readings: checked.readings, messages: checked.messages, aside }
  } catch (error) {
    throw asDataError(error, dataFolder)
  } finally {
    letGo()
  }
}

async function soundBackup(from: string) {
  if (!existsSync(from)) throw new HubError('E_RESTORE', `There is no ${from}.`)
  const files = statSync(from).isDirectory()
    ? (await backupsIn(from)).reverse().map((name) => join(from, name))
    : [from]
  if (files.length === 0) throw new HubError('E_RESTORE', `There is no backup in ${from}.`)
  const troubles: string[] = []
  for (const file of files) {
    const checked = checkDatabase(file)
    if (checked.trouble === null) return { file, checked }
    troubles.push(`${file}: ${checked.trouble}`)
  }
  throw new HubError('E_RESTORE', `No backup is sound. ${troubles.join(' ')}`)
}

/**
 * The write-ahead log belongs to its database, and goes with it: after it, so that no hub ever opens the one without the
 * other. A restore that was broken off between the two is gone on with.
 * @returns where it is; null when there was nothing
 */
function putAside(target: string, nowMs: number): string | null {
  if (!existsSync(target) && !existsSync(`${target}-wal`)) return null
  const before = `${target}.before-`
  const aside =
    (existsSync(target) ? null : lastOf(before)) ??
    `${before}${new Date(nowMs).toISOString().replace(/[:.]/g, '-')}`
  for (const end of ['', '-wal']) if (existsSync(target + end)) renameSync(target + end, aside + end)
  rmSync(`${target}-shm`, { force: true })
  return aside
}

function lastOf(before: string): string | null {
  const names = readdirSync(dirname(before)).filter(
    (name) => name.startsWith(basename(before)) && !name.endsWith('-wal'),
  )
  const last = names.sort().at(-1)
  return last === undefined ? null : join(dirname(before), last)
}

function sync(path: string): void {
  const file = openSync(path, 'r')
  try {
    fsyncSync(file)
  } finally {
    closeSync(file)
  }
}
