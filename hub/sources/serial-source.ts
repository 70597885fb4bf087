import type { Clock } from '../clock.ts'
import type { SerialPortSetting } from '../contract/survey.ts'
import { defaultTimings, OnePort, type PortStatus, type SerialTimings } from './one-port.ts'
import { type Finding, ReturningPorts } from './returning-ports.ts'
import { mendHangup } from './serial-hangup.ts'
import type { Receive } from './source.ts'

/** All serial ports the hub holds open, or tries to. */
export class SerialSource {
  #ports: OnePort[] = []
  readonly #receive: Receive
  readonly #clock: Clock
  readonly #onChange: () => void
  readonly #timings: SerialTimings
  readonly #returning: ReturningPorts | null
  /** by the name a port had: the port that its board is on now */
  readonly #movedFrom = new Map<string, OnePort>()

  /** @param finding  how a board is found again that comes back under another name; without it, none is looked for */
  constructor(
    receive: Receive,
    clock: Clock,
    onChange: () => void,
    timings = defaultTimings,
    finding: Finding | null = null,
  ) {
    mendHangup()
    this.#receive = receive
    this.#clock = clock
    this.#onChange = onChange
    this.#timings = timings
    this.#returning =
      finding &&
      new ReturningPorts(finding, {
        receive,
        all: () => this.#ports,
        make: ({ baudRate, timings }, path, receive) =>
          this.#make({ path, baudRate }, null, timings, receive),
        replace: (lost, found) => {
          this.#replace(lost, found)
          finding.moved(lost.path, found.path)
        },
      })
  }

  /** Opens a port and keeps it open; the same port with another baud rate is opened afresh. */
  open(asked: SerialPortSetting, board: string | null, intervalSeconds = 0): void {
    const before = this.#movedOf(asked.path, board) ?? this.#on(asked.path, board)
    const isSame = before?.baudRate === asked.baudRate && before.board === board
    if (isSame && !before.isGivenUp) return
    const setting = { ...asked, path: before?.path ?? asked.path }
    const silenceMs = Math.max(this.#timings.silenceMs, intervalSeconds * 3000)
    const port = this.#make(setting, board, { ...this.#timings, silenceMs }, this.#receive)
    if (before) this.#replace(before, port)
    else this.#ports.push(port)
    if (this.#returning?.isExpecting(port)) void port.retry()
    else port.attempt()
  }

  close(path: string): boolean {
    const closed = this.#ports.filter((port) => port.path === path)
    for (const port of closed) port.close()
    this.#ports = this.#ports.filter((port) => !closed.includes(port))
    this.#onChange()
    return closed.length > 0
  }

  closeAll(): void {
    this.#returning?.stop()
    for (const port of this.#ports) port.close()
    this.#ports = []
  }

  /** Sends a line to the board on a port; false when that port is not open. */
  say(path: string, words: string): boolean {
    return this.#on(path, null)?.say(words) ?? false
  }

  statuses(): PortStatus[] {
    return this.#ports.map((port) => port.status())
  }

  #make(setting: SerialPortSetting, board: string | null, timings: SerialTimings, receive: Receive): OnePort {
    const parts = { receive, clock: this.#clock, onChange: this.#onChange, timings }
    const returning = this.#returning
    if (!returning) return new OnePort(setting, board, parts)
    const port: OnePort = new OnePort(setting, board, {
      ...parts,
      receive: (frame, settled) => {
        returning.heard(port, frame)
        receive(frame, settled)
      },
      opened: () => returning.opened(port),
      mayRetry: () => returning.mayRetry(port),
    })
    return port
  }

  #replace(before: OnePort, port: OnePort): void {
    before.close()
    this.#ports = this.#ports.map((each) => (each === before ? port : each))
    for (const [path, moved] of this.#movedFrom) if (moved === before) this.#movedFrom.set(path, port)
    if (before.path !== port.path) this.#movedFrom.set(before.path, port)
    this.#onChange()
  }

  /** Two may have had one name, one of them lost since: then the one that is there, unless a board is named. */
  #on(path: string, board: string | null): OnePort | undefined {
    const there = this.#ports.filter((port) => port.path === path)
    const rank = (port: OnePort) =>
      board !== null && port.board === board ? 0 : port.state === 'gone' ? 2 : 1
    return there.sort((one, other) => rank(one) - rank(other))[0]
  }

  /** A survey goes on naming the port where its board was; whatever is on that since then is no longer that board. */
  #movedOf(path: string, board: string | null): OnePort | undefined {
    const port = this.#movedFrom.get(path)
    return board !== null && port?.board === board && this.#ports.includes(port) ? port : undefined
  }
}
