import { Zip, ZipDeflate } from 'fflate'
import type { ArchiveFile } from './archive-ledger.ts'

/** Large pieces are handed to the compressor in parts, so that none holds the thread for long. */
const PART_BYTES = 256 * 1024
/** The ZIP form without its 64-bit extension; a year of readings of a class is far below it. */
const BYTES_AT_MOST = 0xffff_ffff

/**
 * A ZIP archive made while it is read: one file after the other, none held whole.
 * @throws Error when the archive grows past 4 GiB, which this form cannot hold
 */
export async function* zipStream(
  files: Iterable<ArchiveFile> | AsyncIterable<ArchiveFile>,
  madeAtMs: number,
): AsyncGenerator<Uint8Array> {
  const ready: Uint8Array[] = []
  let written = 0
  let fault: Error | null = null
  const zip = new Zip((error, chunk) => {
    if (error) fault = error
    else ready.push(chunk)
  })
  function* drain(): Generator<Uint8Array> {
    if (fault) throw fault
    for (const chunk of ready.splice(0)) {
      written += chunk.length
      if (written > BYTES_AT_MOST) throw new Error('the archive is larger than 4 GiB')
      yield chunk
    }
  }
  try {
    for await (const { path, pieces } of files) {
      const entry = new ZipDeflate(path, { level: 6 })
      entry.mtime = madeAtMs
      zip.add(entry)
      for await (const piece of pieces)
        for (let at = 0; at < piece.length; at += PART_BYTES) {
          entry.push(piece.subarray(at, at + PART_BYTES))
          yield* drain()
        }
      entry.push(new Uint8Array(0), true)
      yield* drain()
    }
    zip.end()
    yield* drain()
  } finally {
    zip.terminate()
  }
}
