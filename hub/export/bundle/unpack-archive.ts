import { createHash } from 'node:crypto'
import { createWriteStream } from 'node:fs'
import { type FileHandle, mkdir } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { PassThrough, Transform } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { createInflateRaw } from 'node:zlib'
import { messageOf } from '../../errors.ts'
import type { LedgerLine } from '../archive/archive-ledger.ts'
import { readAt, type ZipEntry } from './zip-directory.ts'

const LOCAL_SIGNATURE = 0x04034b50
const LOCAL_BYTES = 30

/** A file that came out of an archive; `trouble` when it did not, or not whole. */
export interface Unpacked extends LedgerLine {
  trouble: string | null
}

/**
 * Unpacks files of an archive into a folder, one after the other, never more of one than its directory says.
 * @param entries  from {@link readZipDirectory}, whose names are safe
 */
export async function unpackArchive(
  file: FileHandle,
  entries: readonly ZipEntry[],
  folder: string,
): Promise<Unpacked[]> {
  const unpacked: Unpacked[] = []
  for (const entry of entries) unpacked.push(await unpackEntry(file, entry, join(folder, entry.path)))
  return unpacked
}

async function unpackEntry(file: FileHandle, entry: ZipEntry, to: string): Promise<Unpacked> {
  const hash = createHash('sha256')
  let bytes = 0
  const counted = new Transform({
    transform(piece: Buffer, _encoding, done) {
      bytes += piece.length
      hash.update(piece)
      done(bytes > entry.bytes ? new Error('it is longer than the archive says') : null, piece)
    },
  })
  let trouble: string | null = null
  try {
    await mkdir(dirname(to), { recursive: true })
    const local = await readAt(file, entry.offset, entry.offset + LOCAL_BYTES)
    if (local.length < LOCAL_BYTES || local.readUInt32LE(0) !== LOCAL_SIGNATURE)
      throw new Error('its beginning is damaged')
    const start = entry.offset + LOCAL_BYTES + local.readUInt16LE(26) + local.readUInt16LE(28)
    await pipeline(
      piecesOf(file, start, start + entry.packedBytes),
      entry.method === 8 ? createInflateRaw() : new PassThrough(),
      counted,
      createWriteStream(to),
    )
    if (bytes !== entry.bytes) trouble = `it has ${bytes} bytes, the archive says ${entry.bytes}`
  } catch (error) {
    trouble = messageOf(error)
  }
  return { path: entry.path, bytes, sha256: hash.digest('hex'), trouble }
}

const PIECE_BYTES = 64 * 1024

async function* piecesOf(file: FileHandle, from: number, to: number): AsyncGenerator<Buffer> {
  for (let at = from; at < to; at += PIECE_BYTES) yield readAt(file, at, Math.min(at + PIECE_BYTES, to))
}
