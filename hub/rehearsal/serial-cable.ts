import type { BoardPlan } from './board-plan.ts'
import type { TellParent } from './parent-lines.ts'
import { openPseudoTerminal, type PseudoTerminal } from './pseudo-terminal.ts'

const lookEveryRealMs = 150
/** lets the begun line travel to the terminal before the terminal goes */
const travelRealMs = 40
const plugAgainRealMs = 2000

interface CableEvents {
  onBytes: (bytes: Buffer) => void
  /** somebody has begun to listen */
  onListened: () => void
}

/** The cable of a serial board: may be pulled out and put back, then perhaps under another path. */
export class SerialCable {
  readonly #plan: BoardPlan
  readonly #tell: TellParent
  readonly #events: CableEvents
  #terminal: PseudoTerminal | null = null
  #looking: NodeJS.Timeout | undefined
  #pluggingIn: NodeJS.Timeout | undefined
  #looksListened = 0
  #isRemoved = false
  #outForRealMs = plugAgainRealMs

  constructor(plan: BoardPlan, tell: TellParent, events: CableEvents) {
    this.#plan = plan
    this.#tell = tell
    this.#events = events
  }

  /** True when a line written now has a reader, and the earlier ones have got through. */
  get isHeard(): boolean {
    // opening a port discards what is in it: only the second look is to be trusted
    return this.#looksListened >= 2 && this.#terminal !== null && this.#terminal.pendingBytes() === 0
  }

  async plugIn(): Promise<void> {
    const terminal = await openPseudoTerminal((bytes) => this.#events.onBytes(bytes))
    if (!terminal) {
      this.#tell({ kind: 'note', text: `No pseudo-terminal for ${this.#plan.name}; trying again.` })
      this.#plugInAfter(plugAgainRealMs)
      return
    }
    if (this.#isRemoved) {
      terminal.unplug()
      return terminal.unplugged
    }
    this.#terminal = terminal
    this.#looking = setInterval(() => this.#lookForListener(terminal), lookEveryRealMs)
    void terminal.unplugged.then(() => this.#goneOut(terminal))
    this.#tell({
      kind: 'port',
      path: terminal.path,
      board: this.#plan.name,
      baudRate: this.#plan.baudRate,
    })
  }

  writeLine(line: Uint8Array): void {
    this.#terminal?.write(Buffer.concat([line, Buffer.from('\r\n')]))
  }

  /** Writes the beginning of a line, and pulls the cable before its end. */
  pullOut(begun: Uint8Array, forRealMs: number): void {
    const terminal = this.#terminal
    if (!terminal) return
    this.#outForRealMs = forRealMs
    this.#looksListened = 0
    clearInterval(this.#looking)
    terminal.write(begun)
    setTimeout(() => terminal.unplug(), travelRealMs)
  }

  async remove(): Promise<void> {
    this.#isRemoved = true
    clearInterval(this.#looking)
    clearTimeout(this.#pluggingIn)
    const terminal = this.#terminal
    terminal?.unplug()
    await terminal?.unplugged
  }

  #lookForListener(terminal: PseudoTerminal): void {
    this.#looksListened = terminal.isListenedTo() ? this.#looksListened + 1 : 0
    if (this.#looksListened === 2) this.#events.onListened()
  }

  #goneOut(terminal: PseudoTerminal): void {
    if (this.#terminal !== terminal) return
    this.#terminal = null
    this.#looksListened = 0
    clearInterval(this.#looking)
    if (!this.#isRemoved) this.#plugInAfter(this.#outForRealMs)
    this.#outForRealMs = plugAgainRealMs
  }

  #plugInAfter(realMs: number): void {
    this.#pluggingIn = setTimeout(() => void this.plugIn(), realMs)
  }
}
