import type { FileHandle } from 'node:fs/promises'
import type { Refusal } from '../../../calibration/index.ts'
import { refuseBundle } from './refuse-bundle.ts'

/** Limits that hold before anything is unpacked. A bundle of a year of a class is a hundredth of them. */
export const ARCHIVE_LIMITS = {
  entries: 2000,
  /** unpacked, all together */
  bytes: 4 * 2 ** 30,
  /** unpacked to packed, of files above a megabyte; text of readings packs to about a tenth */
  ratio: 200,
} as const

/** A file in an archive, by the archive’s directory. */
export interface ZipEntry {
  path: string
  /** 0 as it is, 8 deflated */
  method: number
  packedBytes: number
  bytes: number
  /** of its local header from the beginning of the archive */
  offset: number
}

const END_SIGNATURE = 0x06054b50
const ENTRY_SIGNATURE = 0x02014b50
const END_BYTES = 22
const COMMENT_BYTES_AT_MOST = 0xffff
const DIRECTORY_BYTES_AT_MOST = 4_000_000

/**
 * The directory of a ZIP archive. Refused: names that lead out of a folder, the same name twice, encrypted or 64-bit
 * archives, and more than {@link ARCHIVE_LIMITS}.
 * @see PKWARE APPNOTE 6.3 §4.3.12 and §4.3.16
 */
export async function readZipDirectory(file: FileHandle): Promise<ZipEntry[] | Refusal> {
  const { size } = await file.stat()
  const tail = await readAt(file, Math.max(0, size - END_BYTES - COMMENT_BYTES_AT_MOST), size)
  let end = tail.length - END_BYTES
  while (end >= 0 && tail.readUInt32LE(end) !== END_SIGNATURE) end--
  if (end < 0) return refuseBundle('E_BUNDLE_FILE', 'It is no ZIP archive, or its end is missing.')
  const count = tail.readUInt16LE(end + 10)
  const bytes = tail.readUInt32LE(end + 12)
  const offset = tail.readUInt32LE(end + 16)
  if (count > ARCHIVE_LIMITS.entries || bytes > DIRECTORY_BYTES_AT_MOST)
    return refuseBundle('E_BUNDLE_UNSAFE', `It holds ${count} files: a bundle has far fewer.`)
  if (offset + bytes > size) return refuseBundle('E_BUNDLE_FILE', 'Its directory breaks off.')
  const directory = await readAt(file, offset, offset + bytes)
  const entries: ZipEntry[] = []
  for (let at = 0; entries.length < count; ) {
    const isWhole = at + 46 <= directory.length && directory.readUInt32LE(at) === ENTRY_SIGNATURE
    if (!isWhole) return refuseBundle('E_BUNDLE_FILE', 'Its directory is damaged.')
    const nameBytes = directory.readUInt16LE(at + 28)
    const more = directory.readUInt16LE(at + 30) + directory.readUInt16LE(at + 32)
    if ((directory.readUInt16LE(at + 8) & 1) === 1)
      return refuseBundle('E_BUNDLE_FORM', 'It is encrypted: a bundle never is.')
    entries.push({
      path: directory.toString('utf8', at + 46, at + 46 + nameBytes),
      method: directory.readUInt16LE(at + 10),
      packedBytes: directory.readUInt32LE(at + 20),
      bytes: directory.readUInt32LE(at + 24),
      offset: directory.readUInt32LE(at + 42),
    })
    at += 46 + nameBytes + more
  }
  return unsafety(entries) ?? entries
}

function unsafety(entries: readonly ZipEntry[]): Refusal | null {
  const seen = new Set<string>()
  let total = 0
  for (const { path, bytes, packedBytes, method } of entries) {
    if (!isSafePath(path))
      return refuseBundle(
        'E_BUNDLE_UNSAFE',
        `It holds a file called “${path.slice(0, 80)}”, which no bundle has.`,
      )
    if (seen.has(path.toLowerCase())) return refuseBundle('E_BUNDLE_UNSAFE', `It holds “${path}” twice.`)
    seen.add(path.toLowerCase())
    total += bytes
    if (total > ARCHIVE_LIMITS.bytes || (bytes > 1_000_000 && bytes > packedBytes * ARCHIVE_LIMITS.ratio))
      return refuseBundle(
        'E_BUNDLE_UNSAFE',
        `“${path}” would unpack to far more than it says (${bytes} bytes).`,
      )
    if (method !== 0 && method !== 8)
      return refuseBundle('E_BUNDLE_FORM', `“${path}” is packed in a way that bundles are not (${method}).`)
  }
  return null
}

/** Folders and names of plain letters, digits, dot, dash and underscore; no way up, none hidden, no drive. */
function isSafePath(path: string): boolean {
  return path.length <= 200 && /^[A-Za-z0-9_-][A-Za-z0-9._-]*(?:\/[A-Za-z0-9_-][A-Za-z0-9._-]*)*$/.test(path)
}

/** The bytes from `from` to before `to`; fewer where the file ends. */
export async function readAt(file: FileHandle, from: number, to: number): Promise<Buffer> {
  const buffer = Buffer.alloc(Math.max(0, to - from))
  const { bytesRead } = await file.read(buffer, 0, buffer.length, from)
  return buffer.subarray(0, bytesRead)
}
