import { setImmediate as soon } from 'node:timers'

/** Requests of one address that are worked on at a time. */
const AT_ONCE = 4
/** …for so long: one whose body dawdles must not keep the others of its address, where a router gives them all one. */
const COUNTS_MS = 1000

/**
 * Lets addresses take turns: a device that asks for a hundred reports at once waits for them, and the others do not.
 * One request is begun at a time, then whatever has come in meanwhile is heard.
 */
export class Turns {
  /** by address, in the order in which it is their turn */
  readonly #waiting = new Map<string, (() => void)[]>()
  readonly #working = new Map<string, number>()
  #isGoing = false

  /** Resolves when it is the turn of a request from this address. @returns to be called when it has been answered */
  wait(address: string): Promise<() => void> {
    return new Promise((resolve) => {
      const begin = () => {
        this.#working.set(address, (this.#working.get(address) ?? 0) + 1)
        let isDone = false
        const done = () => {
          if (isDone) return
          isDone = true
          clearTimeout(timer)
          this.#done(address)
        }
        const timer = setTimeout(done, COUNTS_MS)
        resolve(done)
      }
      const own = this.#waiting.get(address)
      if (own) own.push(begin)
      else this.#waiting.set(address, [begin])
      this.#goOn()
    })
  }

  #done(address: string): void {
    const left = this.#working.get(address)! - 1
    if (left > 0) this.#working.set(address, left)
    else this.#working.delete(address)
    this.#goOn()
  }

  #goOn(): void {
    if (this.#isGoing) return
    this.#isGoing = true
    soon(() => {
      this.#isGoing = false
      this.#next()
    })
  }

  #next(): void {
    for (const [address, own] of this.#waiting) {
      if ((this.#working.get(address) ?? 0) >= AT_ONCE) continue
      this.#waiting.delete(address)
      own.shift()!()
      // behind all the others
      if (own.length > 0) this.#waiting.set(address, own)
      this.#goOn()
      return
    }
  }
}
