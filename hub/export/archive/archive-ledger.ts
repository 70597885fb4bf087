import { createHash } from 'node:crypto'

type Pieces = Iterable<string | Uint8Array> | AsyncIterable<string | Uint8Array>

/** A file within an archive. */
export interface ArchiveFile {
  path: string
  pieces: AsyncIterable<Uint8Array>
}

export interface LedgerLine {
  path: string
  bytes: number
  /** SHA-256, hexadecimal */
  sha256: string
}

/** Counts and hashes the files of an archive while they pass, so that the last file can tell of all before it. */
export class ArchiveLedger {
  readonly lines: LedgerLine[] = []

  file(path: string, pieces: Pieces): ArchiveFile {
    return { path, pieces: this.#counted(path, pieces) }
  }

  lineOf(path: string): LedgerLine {
    const line = this.lines.find((each) => each.path === path)
    if (!line) throw new Error(`${path} has not been written yet`)
    return line
  }

  async *#counted(path: string, pieces: Pieces): AsyncGenerator<Uint8Array> {
    const hash = createHash('sha256')
    let bytes = 0
    for await (const piece of pieces) {
      const written = typeof piece === 'string' ? Buffer.from(piece) : piece
      hash.update(written)
      bytes += written.length
      yield written
    }
    this.lines.push({ path, bytes, sha256: hash.digest('hex') })
  }
}

/** The SHA-256 of all files together: of their lines “hash, two spaces, path, line feed”, in the order of the archive. */
export function sha256OfAll(lines: readonly LedgerLine[]): string {
  const hash = createHash('sha256')
  for (const { sha256, path } of lines) hash.update(`${sha256}  ${path}\n`)
  return hash.digest('hex')
}
