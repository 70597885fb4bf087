import { open, statfs, unlink } from 'node:fs/promises'
import { join } from 'node:path'
import { messageOf } from '../errors.ts'

const PROBE_BYTES = 64 * 1024

export interface StorageTested {
  /** null: what was written came back as it was */
  trouble: string | null
  tookMs: number
  freeBytes: number | null
}

/**
 * Writes a small file into the data folder, forces it onto the disk, reads it back, compares, and removes it: what the
 * hub does with every reading. Also how much room the disk has left.
 */
export async function testStorage(folder: string): Promise<StorageTested> {
  const startedMs = performance.now()
  const trouble = await writeAndReadBack(folder)
  const tookMs = performance.now() - startedMs
  try {
    const { bavail, bsize } = await statfs(folder)
    return { trouble, tookMs, freeBytes: bavail * bsize }
  } catch {
    return { trouble, tookMs, freeBytes: null }
  }
}

async function writeAndReadBack(folder: string): Promise<string | null> {
  const path = join(folder, `storage-test-${Math.random().toString(36).slice(2)}`)
  const written = Buffer.alloc(PROBE_BYTES, `tussock ${startOfPattern()}`)
  try {
    const file = await open(path, 'wx+')
    try {
      await file.write(written, 0, PROBE_BYTES, 0)
      await file.sync()
      const back = Buffer.alloc(PROBE_BYTES)
      const { bytesRead } = await file.read(back, 0, PROBE_BYTES, 0)
      return bytesRead === PROBE_BYTES && back.equals(written)
        ? null
        : 'What was written came back different.'
    } finally {
      await file.close()
      await unlink(path)
    }
  } catch (error) {
    return `${messageOf(error)}.`
  }
}

/** Another each time, so that an old file cannot pass for the new one. */
function startOfPattern(): string {
  return Math.random().toString(36)
}
