import { chmodSync, existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { z } from 'zod'
import { HubError, messageOf } from '../errors.ts'
import { makeFolder } from '../store/make-folder.ts'
import { KeptSecret } from './passphrase.ts'

/** What guards a hub that is open to a network. */
export const AccessSecrets = z.strictObject({
  /** null: none was set, and the hub does not open to a network */
  teacher: KeptSecret.nullable(),
  /** null: whoever is on the network may look on */
  classCode: KeptSecret.nullable(),
})
export type AccessSecrets = z.infer<typeof AccessSecrets>

const FILE = 'access.json'

/** @throws HubError `E_ACCESS_FILE` when the file is there and cannot be read: never open because of a fault */
export function readAccess(folder: string): AccessSecrets {
  const file = join(folder, FILE)
  if (!existsSync(file)) return { teacher: null, classCode: null }
  try {
    return AccessSecrets.parse(JSON.parse(readFileSync(file, 'utf8')))
  } catch (error) {
    throw new HubError('E_ACCESS_FILE', `${file} cannot be read: ${messageOf(error)}.`, { cause: error })
  }
}

/** Only the user may read it. */
export function writeAccess(folder: string, secrets: AccessSecrets): void {
  makeFolder(folder)
  const file = join(folder, FILE)
  writeFileSync(`${file}.new`, `${JSON.stringify(secrets, null, 1)}\n`, { mode: 0o600 })
  chmodSync(`${file}.new`, 0o600)
  renameSync(`${file}.new`, file)
}
