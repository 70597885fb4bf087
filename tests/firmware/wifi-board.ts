import { connect, type Socket } from 'node:net'
import { fileURLToPath } from 'node:url'
import { Worker } from 'node:worker_threads'
import { afterEach } from 'vitest'
import { RING_BYTES, SLOTS, slots } from './micropython/slots.mjs'

const path = (relative: string) => fileURLToPath(new URL(relative, import.meta.url))
const running = new Set<WifiBoard>()

afterEach(async () => {
  for (const board of [...running]) await board.cutPower()
})

export interface WifiOptions {
  port: number
  /** what the class has changed in `settings.py` */
  settings?: Record<string, string | number | null>
  /** what an earlier life of this board left in its flash */
  flash?: string | null
  /** the board's seconds to one of ours */
  speed?: number
}

type FromWorker =
  | { kind: 'connect'; host: string; port: number }
  | { kind: 'send'; hex: string }
  | { kind: 'close' }
  | { kind: 'said' | 'failed' | 'flash'; text: string }

/** The Wi-Fi board's own files, run by MicroPython in a thread; its modules for pins and radio are the tests' own. */
export class WifiBoard {
  readonly said: string[] = []
  /** what is left after a power cut */
  flash: string | null
  readonly #shared = new Int32Array(new SharedArrayBuffer(4 * SLOTS))
  readonly #ring = new Uint8Array(new SharedArrayBuffer(RING_BYTES))
  readonly #worker: Worker
  readonly #waiting = new Set<() => void>()
  #socket: Socket | null = null
  #isLinkCut = false

  constructor({ port, settings = {}, flash = null, speed = 1 }: WifiOptions) {
    this.flash = flash
    this.set('hasWifi', 1)
    this.set('hasLight', 1)
    this.set('hasThermometer', 1)
    this.#worker = new Worker(path('./micropython/worker.mjs'), {
      workerData: {
        memory: this.#shared.buffer,
        ring: this.#ring.buffer,
        firmware: path('../../firmware-notes/wifi-board'),
        standIns: path('./micropython'),
        settings: Object.entries({ BROKER: '127.0.0.1', BROKER_PORT: port, ...settings })
          .map(([name, value]) => `${name} = ${value === null ? 'None' : JSON.stringify(value)}\n`)
          .join(''),
        flash,
        speed,
      },
    })
    running.add(this)
    this.#worker.on('message', (message: FromWorker) => this.#on(message))
    this.#worker.on('error', (error) => this.#note(`worker failed: ${error.message}`))
  }

  set(slot: Exclude<keyof typeof slots, 'microvolt'>, value: number): void {
    Atomics.store(this.#shared, slots[slot], value)
  }

  volt(pin: number, volt: number): void {
    Atomics.store(this.#shared, slots.microvolt + pin, Math.round(volt * 1e6))
  }

  /** how often the watchdog has been fed */
  get fed(): number {
    return Atomics.load(this.#shared, slots.fed)
  }

  /** Takes the network away, and what is connected over it; or gives it back. */
  cutLink(isCut: boolean): void {
    this.#isLinkCut = isCut
    if (isCut) this.#socket?.destroy()
  }

  /** Waits until the board has printed this. */
  prints(pattern: RegExp, from = 0): Promise<string> {
    return new Promise((resolve) => {
      const look = () => {
        const found = this.said.slice(from).find((line) => pattern.test(line))
        if (found === undefined) return
        this.#waiting.delete(look)
        resolve(found)
      }
      this.#waiting.add(look)
      look()
    })
  }

  /** Nothing is said any more, the broker is not told: it notices by itself. @returns what its flash holds */
  async cutPower(): Promise<string | null> {
    running.delete(this)
    await this.#worker.terminate()
    this.#socket?.destroy()
    return this.flash
  }

  #note(line: string): void {
    this.said.push(line)
    for (const look of [...this.#waiting]) look()
  }

  #on(message: FromWorker): void {
    if (message.kind === 'connect') this.#connect(message.host, message.port)
    else if (message.kind === 'send') this.#socket?.write(Buffer.from(message.hex, 'hex'))
    else if (message.kind === 'close') this.#socket?.destroy()
    else if (message.kind === 'flash') this.flash = message.text
    else this.#note(message.text)
  }

  #connect(host: string, port: number): void {
    this.#socket?.destroy()
    const answer = (isConnected: 1 | 2) => {
      Atomics.compareExchange(this.#shared, slots.isConnected, 0, isConnected)
      Atomics.notify(this.#shared, slots.isConnected)
    }
    if (this.#isLinkCut) {
      answer(2)
      return
    }
    const socket = connect(port, host)
    this.#socket = socket
    socket.on('connect', () => answer(1))
    socket.on('error', () => answer(2))
    socket.on('data', (bytes) => {
      let at = Atomics.load(this.#shared, slots.written)
      for (const byte of bytes) this.#ring[at++ % RING_BYTES] = byte
      Atomics.store(this.#shared, slots.written, at)
    })
    socket.on('close', () => {
      if (socket === this.#socket) Atomics.store(this.#shared, slots.isClosed, 1)
    })
  }
}
