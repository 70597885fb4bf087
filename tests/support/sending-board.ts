import { setTimeout as pause } from 'node:timers/promises'
import mqtt from 'mqtt'

export interface SendingHabits {
  /** so many messages may be without an answer at once */
  window?: number
  /** waits so long before it looks whether it may send more */
  pauseMs?: number
  /** starts up with this number, so that two boards of one name can differ */
  startup?: number
  /** is added to what its probes say, so that two boards of one name can be told apart */
  offset?: number
}

/** A board that sends numbered messages as fast as it is let and forgets one only when it is acknowledged. */
export class SendingBoard {
  readonly name: string
  /** when each was acknowledged, on the monotonic clock, ns */
  readonly acknowledged = new Map<number, bigint>()
  readonly #waiting = new Set<number>()
  readonly #window: number
  readonly #pauseMs: number
  readonly #startup: number
  readonly #offset: number
  readonly #toWake: (() => void)[] = []
  #last = 0

  constructor(name: string, { window = 50, pauseMs = 1, startup = 1, offset = 0 }: SendingHabits = {}) {
    this.name = name
    this.#window = window
    this.#pauseMs = pauseMs
    this.#startup = startup
    this.#offset = offset
  }

  get sent(): number {
    return this.#last
  }

  /** Waits for the next acknowledgement: then it is truly talking. */
  nextAcknowledged(): Promise<void> {
    return new Promise((resolve) => this.#toWake.push(resolve))
  }

  /** Sends until the connection breaks, or once `isEnough` until all is acknowledged. */
  async talk(url: string, isEnough: () => boolean): Promise<void> {
    const client = mqtt.connect(url, {
      reconnectPeriod: 0,
      clientId: `${this.name}-${this.#startup}-${this.#offset}`,
    })
    client.on('error', () => {})
    const closed = new Promise<void>((resolve) => client.once('close', () => resolve()))
    let isClosed = false
    void closed.then(() => {
      isClosed = true
    })
    const publish = (number: number) => {
      this.#waiting.add(number)
      client.publish(`tussock/${this.name}/pack`, this.#pack(number), { qos: 1 }, (error) => {
        if (error) return
        this.acknowledged.set(number, process.hrtime.bigint())
        this.#waiting.delete(number)
        for (const wake of this.#toWake.splice(0)) wake()
      })
    }
    for (const number of [...this.#waiting]) publish(number)
    while (!isClosed) {
      if (isEnough()) {
        if (this.#waiting.size === 0) break
      } else for (let k = 0; k < 10 && this.#waiting.size < this.#window; k++) publish(++this.#last)
      await pause(this.#pauseMs)
    }
    client.end(true)
    await closed
  }

  #pack(number: number): string {
    return JSON.stringify([
      { bn: `${this.name}/`, n: 'startup', v: this.#startup },
      { n: 'message', v: number },
      { n: 'x', u: 'mV', v: number + this.#offset },
      { n: 'y', u: 'Cel', v: number / 16 },
    ])
  }
}

/** so many readings are in each message of a {@link SendingBoard} */
export const READINGS_EACH = 2
