import { symlinkSync, unlinkSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach } from 'vitest'
import { systemClock } from '../../hub/clock.ts'
import { openPseudoTerminal, type PseudoTerminal } from '../../hub/rehearsal/pseudo-terminal.ts'
import type { PortState, PortStatus, SerialTimings } from '../../hub/sources/one-port.ts'
import type { Finding } from '../../hub/sources/returning-ports.ts'
import { SerialSource } from '../../hub/sources/serial-source.ts'
import type { ReceivedFrames } from './received-frames.ts'
import { temporaryFolder } from './temporary-folder.ts'

const ends: (() => void | Promise<void>)[] = []
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end()
})

/** A board on a cable: what the hub says to it, line by line, and its end of the wire. */
export class CabledBoard {
  readonly terminal: PseudoTerminal
  readonly heard: string[]
  readonly #waiting: Set<() => void>

  static async plugIn(): Promise<CabledBoard> {
    const heard: string[] = []
    const waiting = new Set<() => void>()
    let rest = ''
    const terminal = await openPseudoTerminal((bytes) => {
      const lines = (rest + bytes.toString('latin1')).split('\n')
      rest = lines.pop() ?? ''
      heard.push(...lines)
      for (const wake of waiting) wake()
    })
    if (!terminal) throw new Error('No pseudo-terminal can be made: apt install bsdutils, or python3')
    const board = new CabledBoard(terminal, heard, waiting)
    ends.push(() => board.unplug())
    return board
  }

  private constructor(terminal: PseudoTerminal, heard: string[], waiting: Set<() => void>) {
    this.terminal = terminal
    this.heard = heard
    this.#waiting = waiting
  }

  get path(): string {
    return this.terminal.path
  }

  say(text: string | Uint8Array): void {
    this.terminal.write(Buffer.from(text as string))
  }

  /** Waits until the hub has said this line. */
  hears(line: string | RegExp): Promise<string> {
    const isIt = (said: string) => (typeof line === 'string' ? said === line : line.test(said))
    return new Promise((resolve) => {
      const look = () => {
        const found = this.heard.find(isIt)
        if (found === undefined) return
        this.#waiting.delete(look)
        resolve(found)
      }
      this.#waiting.add(look)
      look()
    })
  }

  async unplug(): Promise<void> {
    this.terminal.unplug()
    await this.terminal.unplugged
  }
}

/** A serial source whose waiting times are short, and whose port states can be waited for. */
export class SerialBench {
  readonly source: SerialSource
  /** every change of state, in order: `PATH STATE` */
  readonly states: string[] = []
  #wake: (() => void)[] = []

  constructor(
    frames: Pick<ReceivedFrames, 'receive'>,
    timings: Partial<SerialTimings> = {},
    finding: Finding | null = null,
  ) {
    this.source = new SerialSource(
      frames.receive,
      systemClock,
      () => {
        for (const { path, state } of this.source.statuses()) this.states.push(`${path} ${state}`)
        for (const wake of this.#wake.splice(0)) wake()
      },
      {
        firstRetryMs: 20,
        longestRetryMs: 80,
        silenceMs: 60_000,
        reopenAfterSpans: 1000,
        greetAfterMs: 5,
        wholeAfterMs: 100,
        ...timings,
      },
      finding,
    )
    ends.push(() => this.source.closeAll())
  }

  status(path: string): PortStatus {
    const status = this.source.statuses().find((port) => port.path === path)
    if (!status) throw new Error(`no port ${path}`)
    return status
  }

  /** Waits until the port is in this state. */
  async until(path: string, state: PortState): Promise<PortStatus> {
    while (this.status(path).state !== state) await this.nextChange()
    return this.status(path)
  }

  nextChange(): Promise<void> {
    return new Promise((resolve) => this.#wake.push(resolve))
  }
}

/** A device name that can be pointed at one board and then at another, as the system does when it is plugged in anew. */
export class DeviceName {
  readonly path = join(temporaryFolder(), 'ttyBOARD')

  pointAt(board: CabledBoard | null): void {
    try {
      unlinkSync(this.path)
    } catch {
      // it was not there
    }
    if (board) symlinkSync(board.path, this.path)
  }
}
