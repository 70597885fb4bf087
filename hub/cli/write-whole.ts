import { createWriteStream } from 'node:fs'
import { open, realpath, rename, rm, stat } from 'node:fs/promises'
import { Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { HubError, messageOf, systemCode } from '../errors.ts'

/**
 * Writes a file that appears under its name only once it is whole and on the disk; until then it is beside it, as
 * NAME.part, and what was there before stays. A pipe or a device is written as it is.
 * @throws HubError `E_COMMAND` when it cannot be written; errors of the pieces themselves pass as they are
 */
export async function writeWhole(
  path: string,
  content: string | Uint8Array | Iterable<string> | AsyncIterable<Uint8Array>,
): Promise<void> {
  const isWhole = typeof content === 'string' || content instanceof Uint8Array
  const pieces = isWhole ? Readable.from([content]) : Readable.from(content)
  const refuse = (error: unknown) =>
    new HubError('E_COMMAND', `${path} cannot be written (${messageOf(error)}).`, { cause: error })
  const target = await whereItIs(path)
  if (!target.isPlain) {
    await pipeline(pieces, createWriteStream(target.path)).catch((error: unknown) => {
      throw isOf(error, target.path) ? refuse(error) : error
    })
    return
  }
  const unfinished = `${target.path}.part`
  try {
    await pipeline(pieces, createWriteStream(unfinished))
    await force(unfinished)
    await rename(unfinished, target.path)
  } catch (error) {
    await rm(unfinished, { force: true }).catch(() => undefined)
    throw isOf(error, unfinished) ? refuse(error) : error
  }
}

/** A link is followed: what it points to is written, and the link stays. */
async function whereItIs(path: string): Promise<{ path: string; isPlain: boolean }> {
  try {
    const real = await realpath(path)
    return { path: real, isPlain: (await stat(real)).isFile() }
  } catch {
    return { path, isPlain: true }
  }
}

/** Whether the file is what failed, rather than what was to be written into it: a full disk names no path. */
function isOf(error: unknown, path: string): boolean {
  return (
    (error as { path?: unknown }).path === path || ['ENOSPC', 'EIO', 'EDQUOT'].includes(systemCode(error))
  )
}

async function force(path: string): Promise<void> {
  const file = await open(path, 'r')
  try {
    await file.sync()
  } finally {
    await file.close()
  }
}
