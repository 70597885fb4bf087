import type { SerialPortSetting } from '../contract/survey.ts'
import type { StoreWriter } from '../store/store.ts'
import type { SurveyKeeper } from '../survey/keep-surveys.ts'
import type { SerialSource } from './serial-source.ts'

const SETTING = 'serial-ports'

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
    if (!ports.some(({ path }) => path === from)) return
    this.#remember(ports.map((port) => (port.path === from ? { ...port, path: to } : port)))
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
