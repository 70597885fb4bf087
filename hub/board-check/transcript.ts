import { checkTrailer } from '../wire/checksum.ts'
import { FIRST_ABSOLUTE_SECOND, isSenmlRefusal, readPack } from '../wire/senml.ts'

/** What a check has heard and said, in order. */
export interface Transcript {
  /** by which way the board was heard; a port may begin in the middle of a line */
  way: 'serial' | 'mqtt'
  /** the name the board was asked for by, where that is known before it speaks */
  board: string | null
  events: CheckEvent[]
}

export type CheckEvent =
  | { kind: 'said'; atMs: number; words: string }
  | { kind: 'heard'; atMs: number; text: string; qos?: number }
  | { kind: 'link'; atMs: number; text: string; isRetained: boolean }

/** A line or message of the board, as far as it can be read. */
export interface Heard {
  atMs: number
  text: string
  checksum: 'none' | 'right' | 'wrong'
  qos: number | undefined
  /** why it is no SenML pack, or null */
  trouble: string | null
  boards: string[]
  startup: number | undefined
  message: number | undefined
  about: string | undefined
  dropped: number | undefined
  signals: HeardSignal[]
}

export interface HeardSignal {
  channel: string
  unit: string
  value: number
  /** as sent: below 2^28 relative to its sending */
  seconds: number
}

/** Channels of the protocol itself: no probe's. */
const OWN = new Set(['startup', 'message', 'about', 'dropped'])

export function readHeard(event: Extract<CheckEvent, { kind: 'heard' }>): Heard {
  const { atMs, text, qos } = event
  const checked = checkTrailer(text)
  const hasTrailer = !checked.ok || checked.body.length < text.length
  const heard: Heard = {
    atMs,
    text,
    checksum: !hasTrailer ? 'none' : checked.ok ? 'right' : 'wrong',
    qos,
    trouble: null,
    boards: [],
    startup: undefined,
    message: undefined,
    about: undefined,
    dropped: undefined,
    signals: [],
  }
  if (!checked.ok) {
    heard.trouble = `it states checksum ${checked.stated}, its bytes give ${checked.computed}`
    return heard
  }
  let pack: unknown
  try {
    pack = JSON.parse(checked.body)
  } catch {
    heard.trouble = 'not JSON'
    return heard
  }
  const records = readPack(pack)
  if (isSenmlRefusal(records)) {
    heard.trouble = records.message
    return heard
  }
  for (const { name, unit, value, more, seconds } of records) {
    const cut = name.lastIndexOf('/')
    const board = cut === -1 ? '' : name.slice(0, cut)
    if (!heard.boards.includes(board)) heard.boards.push(board)
    const channel = name.slice(cut + 1)
    if (channel === 'startup' || channel === 'message' || channel === 'dropped') heard[channel] = value
    else if (channel === 'about') heard.about = more?.text
    const signal = value ?? more?.sum
    if (!OWN.has(channel) && signal !== undefined)
      heard.signals.push({ channel, unit, value: signal, seconds })
  }
  return heard
}

/** All that was heard, read. On a port the first line may lack its beginning: it is left out when it cannot be read. */
export function allHeard({ way, events }: Transcript): Heard[] {
  const all = events.flatMap((event) => (event.kind === 'heard' ? [readHeard(event)] : []))
  return way === 'serial' && all[0]?.trouble ? all.slice(1) : all
}

/** Messages with signals, each the first time it came. */
export function firstTimes(all: readonly Heard[]): Heard[] {
  const seen = new Set<string>()
  return all.filter(({ startup, message, signals, trouble }) => {
    if (trouble !== null || signals.length === 0) return false
    if (startup === undefined || message === undefined) return true
    const key = `${startup} ${message}`
    return !seen.has(key) && seen.add(key)
  })
}

/** When a signal was true by the board's word, Unix ms. */
export function instantMs({ atMs }: Heard, seconds: number): number {
  return seconds < FIRST_ABSOLUTE_SECOND ? atMs + seconds * 1000 : seconds * 1000
}

/** When these words were said last, or null. */
export function lastSaid({ events }: Transcript, isIt: (words: string) => boolean): number | null {
  const said = events.filter((event) => event.kind === 'said' && isIt(event.words)).at(-1)
  return said ? said.atMs : null
}
