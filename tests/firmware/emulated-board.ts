import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process'
import { rmSync } from 'node:fs'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { afterEach } from 'vitest'
import { temporaryFolder } from '../support/temporary-folder.ts'
import { buildBench } from './build-firmware.ts'

const running = new Set<EmulatedBoard>()

afterEach(async () => {
  for (const board of [...running]) await board.unplug()
})

export interface BoardOptions {
  /** where it appears; plugged in again, it appears there again */
  path?: string
  /** what opening its port does to most boards; null for one that is not reset */
  resetOnOpenMs?: number | null
  /** the board's seconds to one of ours */
  speed?: number
}

/** Real firmware on an emulated board, with probes that the test sets; its serial line is a pseudo-terminal at `path`. */
export class EmulatedBoard {
  readonly path: string
  readonly #child: ChildProcessWithoutNullStreams
  readonly #heard: string[] = []
  readonly #waiting = new Set<() => void>()
  readonly #ended: Promise<void>

  static async plugIn(firmware: string, options: BoardOptions = {}): Promise<EmulatedBoard> {
    const board = new EmulatedBoard(firmware, options)
    await board.says('ready')
    return board
  }

  private constructor(firmware: string, options: BoardOptions) {
    this.path = options.path ?? join(temporaryFolder(), 'ttyBOARD')
    const resetMs = options.resetOnOpenMs === undefined ? 50 : options.resetOnOpenMs
    this.#child = spawn(buildBench(), [
      ...(resetMs === null ? [] : ['-r', String(resetMs)]),
      ...(options.speed === undefined ? [] : ['-s', String(options.speed)]),
      this.path,
      firmware,
    ])
    running.add(this)
    // orders to a board that has just been unplugged go nowhere
    this.#child.stdin.on('error', () => {})
    createInterface({ input: this.#child.stdout }).on('line', (line) => {
      this.#heard.push(line)
      for (const look of [...this.#waiting]) look()
    })
    this.#ended = new Promise((resolve) => {
      this.#child.once('close', () => {
        running.delete(this)
        resolve()
      })
    })
  }

  /** Sets probes, or does something to the board; orders stand in emulator/orders.c. Waits until it is done. */
  async order(...orders: string[]): Promise<void> {
    for (const order of orders) {
      const from = this.#heard.length
      this.#child.stdin.write(`${order}\n`)
      await this.says(`done ${order}`, from)
    }
  }

  /** Gives an order without waiting: for those after which there is nobody to answer. */
  orderLast(order: string): void {
    this.#child.stdin.write(`${order}\n`)
  }

  /** The share of its time the processor slept, and how many bytes it has said in all. */
  async tell(): Promise<{ asleep: number; said: number }> {
    const from = this.#heard.length
    this.#child.stdin.write('tell\n')
    const told = await this.says(/^told /, from)
    const [cycles, asleep, said] = [...told.matchAll(/=(\d+)/g)].map(([, number]) => Number(number))
    return { asleep: asleep! / cycles!, said: said! }
  }

  /** Waits until the emulator has said this line, after the first `from` lines. */
  says(line: string | RegExp, from = 0): Promise<string> {
    return new Promise((resolve, reject) => {
      const look = () => {
        const found = this.#heard
          .slice(from)
          .find((said) => (typeof line === 'string' ? said === line : line.test(said)))
        if (found === undefined) return
        this.#waiting.delete(look)
        resolve(found)
      }
      this.#waiting.add(look)
      look()
      void this.#ended.then(() => reject(new Error(`the board ended before it said ${line}`)))
    })
  }

  /** How often the board has begun afresh, the first time counted. */
  get resets(): number {
    return this.#heard.filter((line) => line === 'reset').length
  }

  /** Its processor stands still, its line stays connected. */
  stall(): void {
    this.#child.kill('SIGSTOP')
  }

  goOn(): void {
    this.#child.kill('SIGCONT')
  }

  /** Settles once the board is gone by itself. */
  get gone(): Promise<void> {
    return this.#ended
  }

  async unplug(): Promise<void> {
    this.#child.kill('SIGKILL')
    await this.#ended
    // the system takes the name of a port away with its device
    rmSync(this.path, { force: true })
  }
}
