import type { CheckEvent } from './transcript.ts'

/** A way to one board: what it says comes as events, what is said to it goes as words. */
export interface BoardLink {
  readonly way: 'serial' | 'mqtt'
  readonly board: string | null
  say(words: string): void
  /** resolves with the next thing the board does; rejects when the way to it is lost */
  next(): Promise<CheckEvent>
  close(): Promise<void>
}

/** Events in the order they came, for a reader that asks for one at a time. */
export class EventQueue {
  readonly #events: CheckEvent[] = []
  #wake: (() => void) | null = null
  #failure: Error | null = null

  add(event: CheckEvent): void {
    this.#events.push(event)
    this.#wake?.()
  }

  fail(error: Error): void {
    this.#failure ??= error
    this.#wake?.()
  }

  async next(): Promise<CheckEvent> {
    for (;;) {
      const event = this.#events.shift()
      if (event) return event
      if (this.#failure) throw this.#failure
      await new Promise<void>((resolve) => {
        this.#wake = resolve
      })
    }
  }
}
