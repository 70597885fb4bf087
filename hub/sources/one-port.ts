import { SerialPort } from 'serialport'
import type { Clock } from '../clock.ts'
import type { SerialPortSetting } from '../contract/survey.ts'
import { messageOf } from '../errors.ts'
import { readLines } from './serial-lines.ts'
import type { Receive } from './source.ts'
import { troubleText } from './trouble.ts'

export type PortState = 'opening' | 'open' | 'silent' | 'gone' | 'closed'

export interface PortStatus extends SerialPortSetting {
  state: PortState
  /** what is wrong and what to do, or null */
  trouble: string | null
  lastHeardMs: number | null
  /** what a person may want to know of it that is no trouble, or null */
  note: string | null
}

export interface SerialTimings {
  firstRetryMs: number
  longestRetryMs: number
  /** without a byte for this long, or for three of the board's own intervals, the port counts as silent */
  silenceMs: number
  /** a port that stays silent is opened afresh after this many such spans: that resets most boards */
  reopenAfterSpans: number
  /** boards reset when their port opens: the greeting waits for them */
  greetAfterMs: number
  /** bytes that come sooner than this after opening may be the end of a line that had begun before */
  wholeAfterMs: number
}

export const defaultTimings: SerialTimings = {
  firstRetryMs: 1000,
  longestRetryMs: 15_000,
  silenceMs: 60_000,
  reopenAfterSpans: 5,
  greetAfterMs: 2500,
  wholeAfterMs: 100,
}

/** What a port needs of whoever keeps all of them. */
export interface PortParts {
  receive: Receive
  clock: Clock
  onChange: () => void
  timings: SerialTimings
  opened?: () => void
  /** asked before a lost port is tried again; false: not by this name, not now */
  mayRetry?: () => Promise<boolean>
}

/** The system gives such a name to whatever terminal is opened next: once it is lost, it may be a person's own. */
const PSEUDO_TERMINAL = /^\/dev\/pts\/\d+$/

/** One port over its life: opened, lost, opened again. Each attempt has a port object of its own. */
export class OnePort {
  readonly path: string
  readonly baudRate: number
  /** the board that its lines are of, where somebody has said so */
  board: string | null
  /** what its board calls itself: as somebody has said, or as was heard */
  name: string | null
  note: string | null = null
  readonly #parts: PortParts
  readonly #timings: SerialTimings
  #port: SerialPort | null = null
  #state: PortState = 'opening'
  #trouble: string | null = null
  #lastHeardMs: number | null = null
  #retryMs: number
  #timer: NodeJS.Timeout | undefined
  #watch: NodeJS.Timeout | undefined
  #silentSpans = 0
  #isGivenUp = false

  constructor(setting: SerialPortSetting, board: string | null, parts: PortParts) {
    this.path = setting.path
    this.baudRate = setting.baudRate
    this.board = board
    this.name = board
    this.#parts = parts
    this.#timings = parts.timings
    this.#retryMs = parts.timings.firstRetryMs
  }

  get state(): PortState {
    return this.#state
  }

  get timings(): SerialTimings {
    return this.#timings
  }

  /** lost, and not tried again until somebody asks for it */
  get isGivenUp(): boolean {
    return this.#isGivenUp
  }

  status(): PortStatus {
    return {
      path: this.path,
      baudRate: this.baudRate,
      state: this.#state,
      trouble: this.#trouble,
      lastHeardMs: this.#lastHeardMs,
      note: this.note,
    }
  }

  attempt(): void {
    if (this.#state === 'closed') return
    const port = new SerialPort({ path: this.path, baudRate: this.baudRate, autoOpen: false })
    this.#port = port
    const isCurrent = () => this.#port === port
    // after an unplug there may be an error and several closes: only the first counts
    port.on('error', (error) => isCurrent() && this.#lose(port, error))
    port.on('close', (error: Error | null) => isCurrent() && this.#lose(port, error))
    const { path, board } = this
    const { wholeAfterMs } = this.#timings
    readLines(port, { path, board, wholeAfterMs }, this.#parts.clock, this.#parts.receive, (words) =>
      this.say(words),
    )
    port.on('data', () => this.#hear())
    port.open((error) => {
      if (!isCurrent()) {
        // closed, or opened with another setting, while this was under way: the system must get it back
        if (!error) port.close(() => {})
        return
      }
      if (error) {
        this.#lose(port, error)
        return
      }
      this.#state = 'open'
      this.#trouble = null
      this.#retryMs = this.#timings.firstRetryMs
      this.#silentSpans = -1
      this.#watchSilence()
      this.#timer = setTimeout(() => {
        this.say('who')
        this.say(`time ${(this.#parts.clock.nowMs() / 1000).toFixed(3)}`)
      }, this.#timings.greetAfterMs)
      this.#parts.opened?.()
      this.#parts.onChange()
    })
  }

  say(words: string): boolean {
    if (!this.#port?.isOpen) return false
    this.#port.write(`${words}\n`, () => {})
    return true
  }

  close(): void {
    this.#state = 'closed'
    this.#drop()
  }

  #hear(): void {
    this.#lastHeardMs = this.#parts.clock.nowMs()
    this.#silentSpans = -1
    if (this.#state === 'silent') {
      this.#state = 'open'
      this.#trouble = null
      this.#parts.onChange()
    }
  }

  #watchSilence(): void {
    clearInterval(this.#watch)
    this.#watch = setInterval(() => {
      this.#silentSpans++
      if (this.#silentSpans < 1) return
      this.#trouble = troubleText(
        'E_PORT_SILENT',
        `${this.path} is open, but nothing has come for ${Math.round(this.#timings.silenceMs / 1000)} s.`,
      )
      if (this.#state === 'open') {
        this.#state = 'silent'
        this.say('who')
        this.#parts.onChange()
      }
      if (this.#silentSpans >= this.#timings.reopenAfterSpans && this.#port)
        this.#lose(this.#port, null, 'silent', this.#trouble)
    }, this.#timings.silenceMs)
  }

  #lose(port: SerialPort, error: Error | null, state: PortState = 'gone', said = this.#explain(error)): void {
    if (this.#state === 'closed' || this.#port !== port) return
    this.#drop()
    this.#state = state
    this.#trouble = said
    // one that is busy is still the same
    if (state === 'gone' && PSEUDO_TERMINAL.test(this.path) && !said.startsWith('E_PORT_BUSY'))
      this.#isGivenUp = true
    this.#retryLater()
    this.#parts.onChange()
  }

  #retryLater(): void {
    if (this.#isGivenUp && !this.#parts.mayRetry) return
    this.#timer = setTimeout(() => void this.retry(), this.#retryMs)
    this.#retryMs = Math.min(this.#retryMs * 2, this.#timings.longestRetryMs)
  }

  /** Opens it, if it is found that it may be opened. */
  async retry(): Promise<void> {
    const mayRetry = this.#parts.mayRetry ? await this.#parts.mayRetry() : true
    if (this.#state === 'closed') return
    if (mayRetry && !this.#isGivenUp) this.attempt()
    else this.#retryLater()
  }

  #drop(): void {
    clearTimeout(this.#timer)
    clearInterval(this.#watch)
    const port = this.#port
    this.#port = null
    if (port?.isOpen) port.close(() => {})
  }

  #explain(error: Error | null): string {
    const text = messageOf(error ?? 'the device hung up')
    if (/lock|busy/i.test(text))
      return troubleText('E_PORT_BUSY', `${this.path} is in use by another program.`)
    if (/permission|access denied/i.test(text))
      return troubleText('E_PORT_PERMISSION', `This user may not open ${this.path}.`)
    if (/no such file|not found|cannot find/i.test(text))
      return troubleText('E_PORT_MISSING', `There is no port ${this.path} at the moment.`)
    const where = this.board ? `Board "${this.board}" on ${this.path}` : this.path
    return troubleText('E_PORT_GONE', `${where} stopped answering (${text}).`)
  }
}
