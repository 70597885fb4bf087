import { existsSync } from 'node:fs'
import { mkdir, readdir, rm, stat, statfs } from 'node:fs/promises'
import { join, resolve } from 'node:path'
import { Worker } from 'node:worker_threads'
import { HubError, messageOf, systemCode } from '../errors.ts'
import { DATABASE_FILE } from '../store/open-database.ts'
import type { BackupAnswer, BackupWish } from './backup-thread.ts'

export interface BackupMade {
  file: string
  readings: number
  messages: number
  bytes: number
  /** older ones that were removed to keep no more than wanted */
  removed: string[]
}

const NAME = /^tussock-\d{4}-\d\d-\d\dT\d\d-\d\d-\d\d-\d{3}Z\.sqlite$/
const PART = /^tussock-\d{4}-\d\d-\d\dT\d\d-\d\d-\d\d-\d{3}Z\.sqlite\.part(-journal|-wal|-shm)?$/
/** a younger one may be another's that is being made: reading a large one back takes minutes on a slow stick */
const ABANDONED_AFTER_MS = 3_600_000
/** room that is left on the target, so that a backup never fills a disk to the brim */
const LEAST_FREE_BYTES = 16_000_000

/**
 * Copies the database of a data folder, which may be in use, to a file of its own in `to`, and proves it by reading it
 * whole. Only then are the oldest beyond `keep` removed.
 * @throws HubError `E_BACKUP` with what is in the way
 */
export async function makeBackup(
  dataFolder: string,
  to: string,
  keep: number,
  nowMs: number,
): Promise<BackupMade> {
  const database = join(dataFolder, DATABASE_FILE)
  if (!existsSync(database))
    throw new HubError('E_BACKUP', `There is no database in ${dataFolder} to back up.`)
  if (resolve(to) === resolve(dataFolder))
    throw new HubError(
      'E_BACKUP',
      `${to} is the data folder itself: a backup beside the original is lost with it.`,
    )
  const stamp = new Date(nowMs).toISOString().replace(/[:.]/g, '-')
  const file = join(to, `tussock-${stamp}.sqlite`)
  try {
    await mkdir(to, { recursive: true })
    await removeAbandoned(to, nowMs)
    await refuseFull(database, to)
  } catch (error) {
    throw asBackupError(error, to)
  }
  const answer = await copyInThread({ database, to: file })
  if (!answer.ok) throw asBackupError(Object.assign(new Error(answer.message), { code: answer.code }), to)
  const { readings, messages, bytes } = answer
  return { file, readings, messages, bytes, removed: await removeOldest(to, keep) }
}

/** Names of the backups in a folder, oldest first. */
export async function backupsIn(folder: string): Promise<string[]> {
  return (await readdir(folder)).filter((name) => NAME.test(name)).sort()
}

async function refuseFull(database: string, to: string): Promise<void> {
  const { size } = await stat(database)
  const { bavail, bsize } = await statfs(to)
  const free = bavail * bsize
  if (free < size + LEAST_FREE_BYTES)
    throw new HubError(
      'E_BACKUP',
      `${to} has ${Math.round(free / 1e6)} MB free, the database needs ${Math.ceil((size + LEAST_FREE_BYTES) / 1e6)} MB.`,
    )
}

function copyInThread(wish: BackupWish): Promise<BackupAnswer> {
  return new Promise((done, fail) => {
    const worker = new Worker(new URL('./backup-thread.js', import.meta.url), { workerData: wish })
    worker.once('message', (answer: BackupAnswer) => done(answer))
    worker.once('error', fail)
    worker.once('exit', (code) => {
      if (code !== 0) fail(new Error(`The backup thread ended with ${code}.`))
    })
  })
}

/** A backup that was broken off by a power cut leaves its beginning behind, which nobody will go on with. */
async function removeAbandoned(folder: string, nowMs: number): Promise<void> {
  const parts = (await readdir(folder)).filter((name) => PART.test(name))
  for (const name of parts) {
    const { mtimeMs } = await stat(join(folder, name))
    if (nowMs - mtimeMs > ABANDONED_AFTER_MS) await rm(join(folder, name), { force: true })
  }
}

async function removeOldest(folder: string, keep: number): Promise<string[]> {
  const surplus = (await backupsIn(folder)).slice(0, -keep)
  for (const name of surplus) await rm(join(folder, name))
  return surplus
}

function asBackupError(error: unknown, to: string): HubError {
  if (error instanceof HubError) return error
  const code = systemCode(error)
  const why =
    code === 'ENOSPC' || code === 'SQLITE_FULL'
      ? `${to} is full.`
      : code === 'EACCES' || code === 'EROFS' || code === 'SQLITE_READONLY' || code === 'SQLITE_CANTOPEN'
        ? `${to} cannot be written.`
        : `The backup to ${to} failed: ${messageOf(error)}.`
  return new HubError('E_BACKUP', why, { cause: error })
}
