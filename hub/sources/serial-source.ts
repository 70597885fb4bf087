import { SerialPort } from 'serialport'
import type { Clock } from '../clock.ts'
import type { SerialPortSetting } from '../contract/survey.ts'
import { messageOf } from '../errors.ts'
import { mendHangup } from './serial-hangup.ts'
import { readLines } from './serial-lines.ts'
import type { Receive } from './source.ts'
import { troubleText } from './trouble.ts'

export type PortState = 'opening' | 'open' | 'silent' | 'gone' | 'closed'

export interface PortStatus extends SerialPortSetting {
  state: PortState
  /** what is wrong and what to do, or null */
  trouble: string | null
  lastHeardMs: number | null
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

/** All serial ports the hub holds open, or tries to. */
export class SerialSource {
  readonly #ports = new Map<string, OnePort>()
  readonly #receive: Receive
  readonly #clock: Clock
  readonly #onChange: () => void
  readonly #timings: SerialTimings

  constructor(receive: Receive, clock: Clock, onChange: () => void, timings = defaultTimings) {
    mendHangup()
    this.#receive = receive
    this.#clock = clock
    this.#onChange = onChange
    this.#timings = timings
  }

  /** Opens a port and keeps it open; the same port with another baud rate is opened afresh. */
  open(setting: SerialPortSetting, board: string | null, intervalSeconds = 0): void {
    const before = this.#ports.get(setting.path)
    const isSame = before?.baudRate === setting.baudRate && before.board === board
    if (isSame && !before.isGivenUp) return
    before?.close()
    const silenceMs = Math.max(this.#timings.silenceMs, intervalSeconds * 3000)
    const timings = { ...this.#timings, silenceMs }
    const port = new OnePort(setting, board, this.#receive, this.#clock, this.#onChange, timings)
    this.#ports.set(setting.path, port)
    port.attempt()
  }

  close(path: string): boolean {
    const port = this.#ports.get(path)
    port?.close()
    this.#onChange()
    return this.#ports.delete(path)
  }

  closeAll(): void {
    for (const port of this.#ports.values()) port.close()
    this.#ports.clear()
  }

  /** Sends a line to the board on a port; false when that port is not open. */
  say(path: string, words: string): boolean {
    return this.#ports.get(path)?.say(words) ?? false
  }

  statuses(): PortStatus[] {
    return [...this.#ports.values()].map((port) => port.status())
  }
}

/** The system gives such a name to whatever terminal is opened next: once it is lost, it may be a person's own. */
const PSEUDO_TERMINAL = /^\/dev\/pts\/\d+$/

/** One port over its life: opened, lost, opened again. Each attempt has a port object of its own. */
class OnePort {
  readonly path: string
  readonly baudRate: number
  readonly board: string | null
  readonly #receive: Receive
  readonly #clock: Clock
  readonly #onChange: () => void
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

  constructor(
    setting: SerialPortSetting,
    board: string | null,
    receive: Receive,
    clock: Clock,
    onChange: () => void,
    timings: SerialTimings,
  ) {
    this.path = setting.path
    this.baudRate = setting.baudRate
    this.board = board
    this.#receive = receive
    this.#clock = clock
    this.#onChange = onChange
    this.#timings = timings
    this.#retryMs = timings.firstRetryMs
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
    readLines(port, { path, board, wholeAfterMs }, this.#clock, this.#receive, (words) => this.say(words))
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
        this.say(`time ${(this.#clock.nowMs() / 1000).toFixed(3)}`)
      }, this.#timings.greetAfterMs)
      this.#onChange()
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
    this.#lastHeardMs = this.#clock.nowMs()
    this.#silentSpans = -1
    if (this.#state === 'silent') {
      this.#state = 'open'
      this.#trouble = null
      this.#onChange()
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
        this.#onChange()
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
    if (state === 'gone' && PSEUDO_TERMINAL.test(this.path) && !said.startsWith('E_PORT_BUSY')) {
      this.#isGivenUp = true
      this.#onChange()
      return
    }
    this.#timer = setTimeout(() => this.attempt(), this.#retryMs)
    this.#retryMs = Math.min(this.#retryMs * 2, this.#timings.longestRetryMs)
    this.#onChange()
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
