import type { Sample } from './sampling.ts'

/** One numbered message; sent again it carries the same numbers and the same values. */
export interface Message {
  readonly startup: number
  readonly number: number
  readonly sample: Sample
  /** what the board says about itself, when it was asked */
  readonly about: string | null
  /** messages lost to a full backlog before this one */
  readonly dropped: number
  /** real milliseconds of the last sending over the present connection */
  sentAtRealMs: number | null
  timesSent: number
}

/** What a board keeps until the hub says that it is durable. */
export class Backlog {
  readonly startup: number
  readonly #room: number
  readonly #messages = new Map<number, Message>()
  readonly #onDropped: (message: Message) => void
  #lastNumber = 0
  #dropped = 0

  constructor(startup: number, room: number, onDropped: (message: Message) => void) {
    this.startup = startup
    this.#room = room
    this.#onDropped = onDropped
  }

  get size(): number {
    return this.#messages.size
  }

  add(sample: Sample, about: string | null = null): void {
    if (this.#messages.size >= this.#room) this.#dropOldest()
    this.#lastNumber += 1
    this.#messages.set(this.#lastNumber, {
      startup: this.startup,
      number: this.#lastNumber,
      sample,
      about,
      dropped: this.#dropped,
      sentAtRealMs: null,
      timesSent: 0,
    })
  }

  /**
   * What to send now, oldest first.
   * @param inFlight  so many messages may be without an answer at a time: a hub that is slow is not flooded
   */
  due(realNowMs: number, inFlight: number, answerWithinMs: number): Message[] {
    const due: Message[] = []
    let looked = 0
    for (const message of this.#messages.values()) {
      if (looked >= inFlight) break
      looked += 1
      if (message.sentAtRealMs === null || realNowMs - message.sentAtRealMs >= answerWithinMs)
        due.push(message)
    }
    return due
  }

  /** @returns false when it was not waiting any more */
  forget(number: number): boolean {
    return this.#messages.delete(number)
  }

  /** A new connection: what was under way may not have arrived. */
  sendAllAgain(): void {
    for (const message of this.#messages.values()) message.sentAtRealMs = null
  }

  #dropOldest(): void {
    for (const [number, message] of this.#messages) {
      this.#messages.delete(number)
      this.#dropped += 1
      this.#onDropped(message)
      return
    }
  }
}
