import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { systemClock } from '../clock.ts'
import type { ErrorBody } from '../contract/status.ts'
import { HubError, isErrorCode, messageOf } from '../errors.ts'
import { appraiseWith } from '../intake/appraise.ts'
import { reviewWith } from '../quality/review.ts'
import { ADDRESS_FILE, holdFolder } from '../store/hold-folder.ts'
import { SqliteReader } from '../store/sqlite-reader.ts'
import { SqliteWriter } from '../store/sqlite-writer.ts'
import { SurveyKeeper } from '../survey/keep-surveys.ts'

/** The address of the hub that has this data folder open, or null. */
export function runningHub(folder: string): string | null {
  try {
    const { address, pid } = JSON.parse(readFileSync(join(folder, ADDRESS_FILE), 'utf8')) as {
      address: string
      pid: number
    }
    process.kill(pid, 0)
    return address
  } catch {
    return null
  }
}

/** Sends a change to a running hub. @throws HubError with the hub's own words */
export async function sendToHub(address: string, method: string, path: string, body: unknown): Promise<void> {
  const response = await fetch(`${address}${path}`, {
    method,
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  }).catch((error: unknown) => {
    throw new HubError('E_DATA_LOCKED', `The hub at ${address} does not answer (${messageOf(error)}).`)
  })
  if (response.ok) return
  const { error } = (await response.json()) as ErrorBody
  throw isErrorCode(error.code) ? new SaidByHub(error.code, error.message) : new Error(error.message)
}

/** Its message holds the remedy already. */
class SaidByHub extends HubError {
  override get said(): string {
    return this.message
  }
}

/** Works on a data folder that no hub has open, and recomputes what that changes, to the end. */
export async function changeHere<T>(
  folder: string,
  change: (keeper: SurveyKeeper, writer: SqliteWriter) => T | Promise<T>,
): Promise<T> {
  const letGo = holdFolder(folder)
  try {
    const writer = new SqliteWriter(folder)
    try {
      const keeper = new SurveyKeeper(writer, () => systemClock.nowMs())
      const answer = await change(keeper, writer)
      writer.seal()
      while (writer.recomputeSome(appraiseWith(keeper.timelines), 4000) !== null);
      while (writer.reviewSome(reviewWith(keeper.timelines)) !== null);
      return answer
    } finally {
      writer.close()
    }
  } finally {
    letGo()
  }
}

/** Opens the data of a folder for reading, whether a hub is running on it or not. */
export function readHere(folder: string): SqliteReader {
  if (!existsSync(join(folder, 'readings.sqlite')))
    throw new HubError('E_DATA_NOT_OURS', `There are no readings in ${folder}.`)
  return new SqliteReader(folder)
}
