import { messageOf } from '../errors.ts'
import type { Appraise, StoreWriter } from '../store/store.ts'

/** At once, so that intake is never held up for longer than about 20 ms. */
const ROWS = 4000
const RETRY_MS = 1000

export interface RecomputingEvents {
  /** some of it is done, or the work begins or ends */
  moved(): void
  finished(): void
  trouble(text: string): void
}

/** Works off what is due to be recomputed, a little at a time, between what arrives. */
export class Recomputing {
  readonly #writer: StoreWriter
  readonly #appraise: () => Appraise
  readonly #events: RecomputingEvents
  #isGoing = false
  #isStopped = false

  constructor(writer: StoreWriter, appraise: () => Appraise, events: RecomputingEvents) {
    this.#writer = writer
    this.#appraise = appraise
    this.#events = events
  }

  get isGoing(): boolean {
    return this.#isGoing
  }

  /** Looks whether anything is due, and begins; does nothing when it is at work already. */
  begin(): void {
    if (this.#isGoing || this.#isStopped) return
    this.#isGoing = true
    setImmediate(() => this.#step())
  }

  stop(): void {
    this.#isStopped = true
  }

  #step(): void {
    if (this.#isStopped) return
    try {
      const done = this.#writer.recomputeSome(this.#appraise(), ROWS)
      if (done !== null && !done.isLast) {
        this.#events.moved()
        setImmediate(() => this.#step())
        return
      }
      this.#isGoing = false
      if (done !== null) this.#events.finished()
      this.#events.moved()
    } catch (error) {
      this.#events.trouble(messageOf(error))
      setTimeout(() => this.#step(), RETRY_MS).unref()
    }
  }
}
