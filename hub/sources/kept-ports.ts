import type { SerialPortSetting } from '../contract/survey.ts'
import { HubError } from '../errors.ts'
import { asDataError } from '../store/open-database.ts'
import type { StoreWriter } from '../store/store.ts'
import type { SurveyKeeper } from '../survey/keep-surveys.ts'
import type { SerialSource } from './serial-source.ts'

const SETTING = 'serial-ports'
const IDENTITIES = 'serial-identities'

/** Which serial ports are to be open: those a person chose, which are remembered, and those the surveys name. */
export class KeptPorts {
  readonly #serial: SerialSource
  readonly #writer: StoreWriter
  readonly #keeper: SurveyKeeper

  constructor(serial: SerialSource, writer: StoreWriter, keeper: SurveyKeeper) {
    this.#serial = serial
    this.#writer = writer
    this.#keeper = keeper
  }

  openAll(asked: readonly SerialPortSetting[]): void {
    for (const port of [...asked, ...this.#remembered()]) this.#serial.open(port, this.#boardOn(port.path))
    this.openOfSurveys()
  }

  openOfSurveys(): void {
    for (const survey of this.#keeper.timelines.surveys)
      for (const { name, serialPort, sampleIntervalSeconds } of survey.boards)
        if (serialPort) this.#serial.open(serialPort, name, sampleIntervalSeconds)
  }

  open(port: SerialPortSetting): void {
    this.#remember([...this.#remembered().filter(({ path }) => path !== port.path), port])
    this.#serial.open(port, this.#boardOn(port.path))
  }

  /** @returns false when that port was not open */
  close(path: string): boolean {
    this.#remember(this.#remembered().filter((port) => port.path !== path))
    return this.#serial.close(path)
  }

  /** A board has come back under another name: the next start looks for it there. What surveys say stays as it is. */
  moved(from: string, to: string): void {
    const ports = this.#remembered()
    if (this.#boardOn(from) !== null || !ports.some(({ path }) => path === from)) return
    this.#noteIfPossible(() =>
      this.#remember(ports.map((port) => (port.path === from ? { ...port, path: to } : port))),
    )
    this.identified(from, null, null)
  }

  /** What is known of the device on a port, for knowing it again after a restart: a board's own wherever it is. */
  identified(path: string, board: string | null, identity: string | null): void {
    const key = board ?? path
    const known = this.#identities()
    if ((known[key] ?? null) === identity) return
    const { [key]: _before, ...others } = known
    const now = identity === null ? others : { ...others, [key]: identity }
    this.#noteIfPossible(() => this.#writer.setSetting(IDENTITIES, JSON.stringify(now)))
  }

  identityBefore(path: string, board: string | null): string | null {
    return this.#identities()[board ?? path] ?? null
  }

  #identities(): Record<string, string> {
    return JSON.parse(this.#writer.setting(IDENTITIES) ?? '{}') as Record<string, string>
  }

  /** On a disk that takes nothing it is not noted, and found out again the next time. */
  #noteIfPossible(note: () => void): void {
    try {
      note()
    } catch (error) {
      if (!(asDataError(error, '') instanceof HubError)) throw error
    }
  }

  #boardOn(path: string): string | null {
    for (const survey of this.#keeper.timelines.surveys)
      for (const board of survey.boards) if (board.serialPort?.path === path) return board.name
    return null
  }

  #remembered(): SerialPortSetting[] {
    return JSON.parse(this.#writer.setting(SETTING) ?? '[]') as SerialPortSetting[]
  }

  #remember(ports: SerialPortSetting[]): void {
    this.#writer.setSetting(SETTING, JSON.stringify(ports))
  }
}
