/** Wrong tries that one address, and all together, have in the span. */
const TRIES = 5
const TRIES_OF_ALL = 40
const SPAN_MS = 600_000

/** Counts wrong tries at a secret, by address and in all, and says when the next may be made. */
export class Attempts {
  readonly #nowMs: () => number
  #wrong: { address: string; atMs: number }[] = []

  constructor(nowMs: () => number = Date.now) {
    this.#nowMs = nowMs
  }

  /** @returns how long to wait, ms; 0 when a try may be made now */
  waitMs(address: string): number {
    const now = this.#nowMs()
    this.#wrong = this.#wrong.filter(({ atMs }) => now - atMs < SPAN_MS)
    const own = this.#wrong.filter((each) => each.address === address)
    const until = (list: readonly { atMs: number }[], tries: number) =>
      list.length < tries ? 0 : list.at(-tries)!.atMs + SPAN_MS - now
    return Math.max(0, until(own, TRIES), until(this.#wrong, TRIES_OF_ALL))
  }

  /** Counted before the secret is looked at, so that tries at the same moment count too. */
  count(address: string): void {
    this.#wrong.push({ address, atMs: this.#nowMs() })
  }

  /** The try was right after all. */
  forget(address: string): void {
    this.#wrong = this.#wrong.filter((each) => each.address !== address)
  }
}
