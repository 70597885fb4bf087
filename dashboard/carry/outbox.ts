import type { Capture } from './capture.ts'

/** Where things are kept on this phone, by a key of their own. */
export interface Shelf<T> {
  all(): Promise<T[]>
  put(item: T): Promise<void>
  remove(key: string): Promise<void>
}

/** What became of sending: kept by the hub, refused for good, or no answer (it is tried again). */
export type Sent = { as: 'kept' } | { as: 'refused'; code: string; message: string } | { as: 'unanswered' }

export interface OutboxParts {
  shelf: Shelf<Capture>
  send(capture: Capture): Promise<Sent>
  /** runs `work` after a while; the function returned calls it off */
  later(ms: number, work: () => void): () => void
  changed(captures: readonly Capture[]): void
  kept(capture: Capture): void
}

const FIRST_PAUSE_MS = 2_000
const LONGEST_PAUSE_MS = 60_000

/** How long to wait before trying again after so many times without an answer. */
export function pauseMs(failures: number): number {
  return Math.min(LONGEST_PAUSE_MS, FIRST_PAUSE_MS * 2 ** Math.max(0, failures - 1))
}

/**
 * Captures on their way to the hub: on the shelf before they are sent, off it when the hub has said that it keeps them.
 * One is sent at a time, the oldest first. What is refused stays, with the reason, until a person decides.
 */
export class Outbox {
  readonly #parts: OutboxParts
  #work: Promise<void> = Promise.resolve()
  #failures = 0
  #callOff: () => void = () => {}

  constructor(parts: OutboxParts) {
    this.#parts = parts
  }

  /** Settles when it is on the shelf; sending goes on by itself. */
  async add(captures: readonly Capture[]): Promise<void> {
    for (const capture of captures) await this.#parts.shelf.put(capture)
    await this.#tell()
    void this.flush()
  }

  /** Sends what waits; settles when that was tried. */
  flush(): Promise<void> {
    this.#work = this.#work.then(() => this.#sendAll()).catch(() => this.#tryLater())
    return this.#work
  }

  /** A refused one, put right, is sent again under its own id: the hub has not kept it. */
  async correct(id: string, quadrat: string): Promise<void> {
    const capture = await this.#find(id)
    if (!capture) return
    await this.add([{ ...capture, spot: { ...capture.spot, quadrat }, state: 'waiting', refusal: null }])
  }

  async drop(id: string): Promise<void> {
    await this.#parts.shelf.remove(id)
    await this.#tell()
  }

  async #sendAll(): Promise<void> {
    this.#callOff()
    for (;;) {
      const waiting = (await this.#all()).filter(({ state }) => state === 'waiting')
      const next = waiting[0]
      if (!next) break
      const sent = await this.#parts.send(next)
      if (sent.as === 'unanswered') {
        this.#tryLater()
        break
      }
      this.#failures = 0
      if (sent.as === 'kept') {
        await this.#parts.shelf.remove(next.id)
        this.#parts.kept(next)
      } else if (await this.#find(next.id)) {
        const { code, message } = sent
        await this.#parts.shelf.put({ ...next, state: 'refused', refusal: { code, message } })
      }
      await this.#tell()
    }
  }

  #tryLater(): void {
    this.#failures++
    this.#callOff = this.#parts.later(pauseMs(this.#failures), () => void this.flush())
  }

  async #all(): Promise<Capture[]> {
    return (await this.#parts.shelf.all()).sort((one, other) => one.takenMs - other.takenMs)
  }

  async #find(id: string): Promise<Capture | undefined> {
    return (await this.#all()).find((capture) => capture.id === id)
  }

  async #tell(): Promise<void> {
    this.#parts.changed(await this.#all())
  }
}
