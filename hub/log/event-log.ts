import { appendFileSync, existsSync, readFileSync, renameSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { rfc3339 } from '../clock.ts'
import { makeFolder } from '../store/make-folder.ts'

export type Level = 'info' | 'warning' | 'error'

/** One thing that happened. In the file it is one line of JSON. */
export interface LogLine {
  /** RFC 3339, UTC */
  time: string
  level: Level
  /** whose it is: `hub`, `broker`, `port /dev/ttyUSB0`, `board fern-1` … */
  what: string
  /** in plain words */
  said: string
}

export type Event = Omit<LogLine, 'time'>

const FILE = 'hub.jsonl'
/** A file is put aside when it is this long, and the oldest forgotten: never more than 5 MB on a small card. */
const LONGEST_BYTES = 1_000_000
const KEPT = 5

/**
 * What the hub did and what went wrong, in the folder `log` beside the readings. Never in the way of storing: a line
 * that cannot be written is left out.
 */
export class EventLog {
  readonly #folder: string
  readonly #file: string
  readonly #nowMs: () => number
  readonly #longestBytes: number
  #bytes: number | null = null

  constructor(dataFolder: string, nowMs: () => number, longestBytes = LONGEST_BYTES) {
    this.#folder = logFolder(dataFolder)
    this.#file = join(this.#folder, FILE)
    this.#nowMs = nowMs
    this.#longestBytes = longestBytes
  }

  write(event: Event): void {
    const line: LogLine = { time: rfc3339(this.#nowMs()), ...event }
    const text = `${JSON.stringify(line)}\n`
    try {
      this.#bytes ??= this.#sizeSoFar()
      if (this.#bytes > 0 && this.#bytes + text.length > this.#longestBytes) this.#putAside()
      appendFileSync(this.#file, text, { mode: 0o600 })
      this.#bytes += Buffer.byteLength(text)
    } catch {
      this.#bytes = null
    }
  }

  #sizeSoFar(): number {
    makeFolder(this.#folder)
    return existsSync(this.#file) ? statSync(this.#file).size : 0
  }

  /** hub.jsonl becomes hub.1.jsonl, that becomes hub.2.jsonl, and the last one is overwritten. */
  #putAside(): void {
    for (let number = KEPT - 1; number >= 1; number--) {
      const from = number === 1 ? this.#file : numbered(this.#folder, number - 1)
      if (existsSync(from)) renameSync(from, numbered(this.#folder, number))
    }
    this.#bytes = 0
  }
}

/** The lines of a data folder's log, oldest first; a line torn by a power cut is left out. */
export function readLog(dataFolder: string): LogLine[] {
  const folder = logFolder(dataFolder)
  const files = [join(folder, FILE)]
  for (let number = 1; number < KEPT; number++) files.unshift(numbered(folder, number))
  return files
    .filter((file) => existsSync(file))
    .flatMap((file) => readFileSync(file, 'utf8').split('\n'))
    .flatMap(readLine)
}

function readLine(text: string): LogLine[] {
  try {
    const { time, level, what, said } = JSON.parse(text) as LogLine
    return typeof time === 'string' && typeof said === 'string' ? [{ time, level, what, said }] : []
  } catch {
    return []
  }
}

function logFolder(dataFolder: string): string {
  return join(dataFolder, 'log')
}

function numbered(folder: string, number: number): string {
  return join(folder, `hub.${number}.jsonl`)
}
