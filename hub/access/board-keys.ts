import { createHash, randomBytes, timingSafeEqual } from 'node:crypto'

/** Where keys are kept. */
export interface KeptKeys {
  all(): { board: string; hash: Buffer; madeMs: number }[]
  set(board: string, hash: Buffer, madeMs: number): void
  remove(board: string): boolean
}

/** 120 random bits: no need to slow guessing down. Letters that are not mistaken for one another, in groups. */
const LETTERS = 'abcdefghjkmnpqrstuvwxyz23456789'
const LENGTH = 24
const GROUP = 6

/**
 * A key for each board, with which it proves its name to the broker. Only its hash is kept, so it is shown once.
 * Boards without a key may come in where that is allowed; a board that has one must always show it.
 */
export class BoardKeys {
  readonly #kept: KeptKeys
  readonly #mayBeAnonymous: boolean
  readonly #hashes = new Map<string, Uint8Array>()
  #changed: () => void = () => {}

  constructor(kept: KeptKeys, mayBeAnonymous: boolean) {
    this.#kept = kept
    this.#mayBeAnonymous = mayBeAnonymous
    for (const { board, hash } of kept.all()) this.#hashes.set(board, hash)
  }

  get mayBeAnonymous(): boolean {
    return this.#mayBeAnonymous
  }

  boards(): string[] {
    return [...this.#hashes.keys()].sort()
  }

  /** What tells a key from others, for another thread that asks boards for theirs. */
  hashes(): [board: string, hash: Uint8Array][] {
    return [...this.#hashes]
  }

  /** Goes by these from now on; nothing is kept. */
  replace(hashes: readonly (readonly [board: string, hash: Uint8Array])[]): void {
    this.#hashes.clear()
    for (const [board, hash] of hashes) this.#hashes.set(board, hash)
  }

  /** Calls back after a key was made or removed. */
  onChange(changed: () => void): void {
    this.#changed = changed
  }

  /** @returns the key, which cannot be read again; one made before opens nothing any more */
  make(board: string, nowMs: number): string {
    const letters = Array.from({ length: LENGTH }, randomLetter).join('')
    const key = letters.replace(new RegExp(`.{${GROUP}}(?=.)`, 'g'), '$&-')
    const hash = hashOf(key)
    this.#kept.set(board, hash, nowMs)
    this.#hashes.set(board, hash)
    this.#changed()
    return key
  }

  remove(board: string): boolean {
    this.#hashes.delete(board)
    this.#changed()
    return this.#kept.remove(board)
  }

  /**
   * @param name  the user name a client gives: the board's own name; undefined when it gives none
   * @returns the board it is, null for one without a name, or false when it is not let in
   */
  admit(name: string | undefined, key: string | undefined): string | null | false {
    if (name === undefined || name === '') return this.#mayBeAnonymous ? null : false
    const hash = this.#hashes.get(name)
    if (hash === undefined) return this.#mayBeAnonymous ? null : false
    return key !== undefined && timingSafeEqual(hashOf(key), hash) ? name : false
  }

  /** Whether a client may speak as a board: as itself; as any that has no key, where boards may come without one. */
  maySpeakAs(admitted: string | null, board: string): boolean {
    if (admitted !== null) return admitted === board
    return this.#mayBeAnonymous && !this.#hashes.has(board)
  }
}

function randomLetter(): string {
  for (;;) {
    const byte = randomBytes(1)[0]!
    // the remainder of the last, incomplete round would make some letters likelier
    if (byte < Math.floor(256 / LETTERS.length) * LETTERS.length) return LETTERS[byte % LETTERS.length]!
  }
}

function hashOf(key: string): Buffer {
  return createHash('sha256').update(key.trim().toLowerCase().replaceAll('-', '')).digest()
}
