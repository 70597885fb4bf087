import type { CabledBoard } from './serial-bench.ts'

/** A board that numbers its messages, keeps each until it is told that it is kept, and says who it is when asked. */
export class NumberedBoard {
  readonly name: string
  readonly #waiting = new Set<number>()
  readonly acknowledged = new Set<number>()
  #cable: CabledBoard | null = null
  #heard = 0
  #last = 0

  constructor(name: string) {
    this.name = name
  }

  get sent(): number {
    return this.#last
  }

  /** Talks over this cable from now on, and sends first what was not acknowledged over the one before. */
  plugInto(cable: CabledBoard): void {
    this.#cable = cable
    this.#heard = 0
    this.#resend()
  }

  send(count: number): void {
    for (let k = 0; k < count; k++) {
      this.#waiting.add(++this.#last)
      this.#say(this.#pack(this.#last))
    }
  }

  /** Begins a message and does not end it. */
  sendHalf(): void {
    this.#waiting.add(++this.#last)
    this.#cable?.say(this.#pack(this.#last).slice(0, 30))
  }

  /** Takes in what the hub has said since the last time. */
  listen(): void {
    const lines = this.#cable?.heard ?? []
    for (const line of lines.slice(this.#heard)) {
      const [, number] = /^kept 1 (\d+)$/.exec(line) ?? []
      if (number !== undefined) {
        this.acknowledged.add(Number(number))
        this.#waiting.delete(Number(number))
      }
      if (line === 'who') {
        this.#say(JSON.stringify([{ bn: `${this.name}/`, n: 'about', vs: 'a board of the tests' }]))
        this.#resend()
      }
    }
    this.#heard = lines.length
  }

  #resend(): void {
    for (const number of this.#waiting) this.#say(this.#pack(number))
  }

  #say(line: string): void {
    this.#cable?.say(`${line}\n`)
  }

  #pack(number: number): string {
    return JSON.stringify([
      { bn: `${this.name}/`, n: 'startup', v: 1 },
      { n: 'message', v: number },
      { n: 'x', u: 'mV', v: number },
      { n: 'y', u: 'Cel', v: number / 16 },
    ])
  }
}
