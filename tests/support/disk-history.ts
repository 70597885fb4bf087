import { closeSync, fstatSync, mkdirSync, openSync, readSync, writeFileSync } from 'node:fs'
import { basename, join } from 'node:path'

/** What can happen to a file, as `machine-shim.c` notes it. */
type Change =
  | { kind: 'made'; path: string }
  | { kind: 'written'; path: string; offset: number; bytes: Buffer }
  | { kind: 'cut'; path: string; length: number }
  | { kind: 'renamed'; path: string; to: string }
  | { kind: 'removed'; path: string }
type Noted = (Change | { kind: 'forced'; path: string }) & { begunNs: bigint }

const KINDS = ['', 'made', 'written', 'cut', 'forced', 'renamed', 'removed'] as const
const HEAD_BYTES = 40
/** what a disk writes whole or not at all */
const SECTOR_BYTES = 512

/** Reads back what was noted, in the order it happened. */
function* readHistory(log: string): Generator<Noted> {
  const file = openSync(log, 'r')
  try {
    const size = fstatSync(file).size
    const head = Buffer.alloc(HEAD_BYTES)
    for (let at = 0; at + HEAD_BYTES <= size; ) {
      readSync(file, head, 0, HEAD_BYTES, at)
      const pathLength = head.readUInt32LE(4)
      const rest = Buffer.alloc(pathLength + head.readUInt32LE(8))
      // the hub was killed in the middle of a note: what it notes there was not answered to anybody
      if (at + HEAD_BYTES + rest.length > size) return
      readSync(file, rest, 0, rest.length, at + HEAD_BYTES)
      at += HEAD_BYTES + rest.length
      const path = rest.subarray(0, pathLength).toString()
      const bytes = rest.subarray(pathLength)
      const offset = Number(head.readBigInt64LE(16))
      const begunNs = head.readBigUInt64LE(24)
      const kind = KINDS[head.readUInt32LE(0)]
      if (kind === 'written') yield { kind, path, offset, bytes, begunNs }
      else if (kind === 'cut') yield { kind, path, length: offset, begunNs }
      else if (kind === 'renamed') yield { kind, path, to: bytes.toString(), begunNs }
      else if (kind === 'made' || kind === 'removed' || kind === 'forced') yield { kind, path, begunNs }
      else throw new Error(`The log is not of machine-shim.c: kind ${head.readUInt32LE(0)}`)
    }
  } finally {
    closeSync(file)
  }
}

/** How the power goes: what becomes of what was written and not yet forced to the disk. */
export type Cut = 'nothing more' | 'some of it' | 'all but the last, which is torn'
export const CUTS: readonly Cut[] = ['nothing more', 'some of it', 'all but the last, which is torn']

/** A file's bytes, growing. */
class Content {
  #bytes = Buffer.alloc(0)
  #length = 0

  copy(): Content {
    const copy = new Content()
    copy.#bytes = Buffer.from(this.bytes)
    copy.#length = this.#length
    return copy
  }

  get bytes(): Buffer {
    return this.#bytes.subarray(0, this.#length)
  }

  write(offset: number, bytes: Buffer): void {
    this.#grow(offset + bytes.length)
    bytes.copy(this.#bytes, offset)
    this.#length = Math.max(this.#length, offset + bytes.length)
  }

  cut(length: number): void {
    this.#grow(length)
    if (length < this.#length) this.#bytes.fill(0, length, this.#length)
    this.#length = length
  }

  #grow(length: number): void {
    if (length <= this.#bytes.length) return
    const larger = Buffer.alloc(Math.max(length, this.#bytes.length * 2))
    this.bytes.copy(larger)
    this.#bytes = larger
  }
}

type OfBytes = Extract<Change, { kind: 'written' | 'cut' }>

/** One file, whatever names it has: what of it is on the disk for certain, and what may be. */
interface Inode {
  durable: Content
  pending: OfBytes[]
}

/** the names in the folder: which file each belongs to */
type Names = Map<string, Inode>
type OfNames = Exclude<Change, OfBytes>

/**
 * What a disk may hold after a power cut, worked out from what was noted. Bytes are there for certain once their file was
 * forced to the disk, names once their folder was. Of what came later, anything may be there or not: writes in any
 * choice, since a disk reorders them; changes of names up to any point, since file systems keep a journal of these.
 */
export class DiskHistory {
  readonly #log: string
  readonly #random: () => number

  constructor(log: string, random: () => number) {
    this.#log = log
    this.#random = random
  }

  /** when each change began, ns of the monotonic clock */
  moments(): bigint[] {
    return Array.from(readHistory(this.#log), ({ begunNs }) => begunNs)
  }

  /**
   * Cuts the power just before each of some changes, and writes what is then on the disk into a folder.
   * @param before  places in {@link moments}, rising
   * @param into    an empty folder for each cut
   */
  *cuts(
    before: readonly number[],
    cut: (index: number) => Cut,
    into: () => string,
  ): Generator<{ index: number; folder: string }> {
    const durableNames: Names = new Map()
    const names: Names = new Map()
    let pendingNames: { change: OfNames; inode: Inode | undefined }[] = []
    let next = 0
    let index = 0
    for (const change of readHistory(this.#log)) {
      while (before[next] === index) {
        const folder = into()
        this.#write(folder, durableNames, pendingNames, cut(next++))
        yield { index, folder }
      }
      index++
      if (change.kind === 'forced') {
        const inode = names.get(change.path)
        if (inode) force(inode)
        else {
          for (const { change, inode } of pendingNames) apply(durableNames, change, inode)
          pendingNames = []
        }
      } else if (change.kind === 'written' || change.kind === 'cut')
        names.get(change.path)?.pending.push(change)
      else {
        const inode =
          change.kind === 'made' ? { durable: new Content(), pending: [] } : names.get(change.path)
        apply(names, change, inode)
        pendingNames.push({ change, inode })
      }
    }
  }

  #write(
    folder: string,
    durable: Names,
    pending: readonly { change: OfNames; inode: Inode | undefined }[],
    cut: Cut,
  ): void {
    const names = new Map(durable)
    const kept = cut === 'nothing more' ? 0 : Math.floor(this.#random() * (pending.length + 1))
    for (const { change, inode } of pending.slice(0, kept)) apply(names, change, inode)
    mkdirSync(folder, { recursive: true })
    for (const [path, inode] of names) {
      // the shared memory of the log is made anew, and no part of what is on the disk
      if (path.endsWith('-shm')) continue
      writeFileSync(join(folder, basename(path)), this.#contentAfter(inode, cut).bytes)
    }
  }

  #contentAfter({ durable, pending }: Inode, cut: Cut): Content {
    if (cut === 'nothing more' || pending.length === 0) return durable
    const content = durable.copy()
    for (const [place, change] of pending.entries()) {
      const isLast = place === pending.length - 1
      if (cut === 'some of it' ? this.#random() < 0.5 : !isLast) applyBytes(content, change)
      else if (change.kind === 'written' && (isLast || this.#random() < 0.25))
        for (const sector of sectors(change)) if (this.#random() < 0.5) applyBytes(content, sector)
    }
    return content
  }
}

function force(inode: Inode): void {
  for (const change of inode.pending) applyBytes(inode.durable, change)
  inode.pending = []
}

function applyBytes(content: Content, change: OfBytes): void {
  if (change.kind === 'cut') content.cut(change.length)
  else content.write(change.offset, change.bytes)
}

function apply(names: Names, change: OfNames, inode: Inode | undefined): void {
  if (change.kind !== 'made') names.delete(change.path)
  if (inode && change.kind !== 'removed')
    names.set(change.kind === 'renamed' ? change.to : change.path, inode)
}

/** A write as the disk sees it: cut at the borders of its sectors. */
function* sectors({ path, offset, bytes }: Extract<Change, { kind: 'written' }>): Generator<OfBytes> {
  for (let at = offset; at < offset + bytes.length; ) {
    const end = Math.min(offset + bytes.length, (Math.floor(at / SECTOR_BYTES) + 1) * SECTOR_BYTES)
    yield { kind: 'written', path, offset: at, bytes: bytes.subarray(at - offset, end - offset) }
    at = end
  }
}
