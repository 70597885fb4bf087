import type { ColumnMap } from '../contract/survey.ts'
import { TYPED_BOARD } from '../contract/wire-names.ts'
import type { ErrorCode } from '../errors.ts'
import type { Frame } from '../sources/source.ts'
import type { Arrival, Signal, Unreadable } from '../store/store.ts'
import { checkTrailer } from '../wire/checksum.ts'
import { type ColumnSignal, readColumns, readUnmappedColumns } from '../wire/plain-columns.ts'
import { isSenmlRefusal, readPack, type SenmlMore, type SenmlRecord } from '../wire/senml.ts'
import { resolveTimes } from './resolve-time.ts'
import { isTypedSource } from './typed-frame.ts'

const decoder = new TextDecoder('utf-8', { fatal: true })

/**
 * What a frame says: one arrival for each board in it, or why it cannot be read. Pure but for the decoder.
 * @param columnsOf the column map of a board, where it has one
 */
export function readFrame(
  frame: Frame,
  columnsOf: (board: string) => ColumnMap | undefined,
): (Arrival | Unreadable)[] {
  const refuse = (code: ErrorCode, message: string): Unreadable[] => [
    {
      source: frame.source,
      board: frame.board,
      arrivedMs: frame.arrivedMs,
      code,
      message,
      bytes: frame.bytes,
    },
  ]
  if (frame.fault) return refuse(frame.fault.code, frame.fault.message)
  const where = () => (frame.board ? `${frame.source}, board "${frame.board}"` : frame.source)
  const text = textOf(frame.bytes)
  if (text === null)
    return refuse('E_NOT_TEXT', `${where()}: ${frame.bytes.length} bytes that are not UTF-8 text.`)
  const checked = checkTrailer(text.trimEnd())
  if (!checked.ok)
    return refuse(
      'E_CHECKSUM',
      `${where()}: the line states checksum ${checked.stated}, its bytes give ${checked.computed}.`,
    )
  const body = checked.body
  if (frame.format === 'columns' || (frame.format === 'line' && !looksLikeJson(body))) {
    const board = frame.board ?? boardOfSource(frame.source)
    const map = columnsOf(board)
    const signals = map ? readColumns(body, map) : readUnmappedColumns(body)
    if (!Array.isArray(signals))
      return refuse(
        map ? 'E_COLUMNS' : 'E_LINE_UNREADABLE',
        `${where()}: "${shown(body)}": ${signals.message}.`,
      )
    return [columnsArrival(frame, board, signals)]
  }
  let pack: unknown
  try {
    pack = JSON.parse(body)
  } catch (error) {
    return refuse(
      'E_LINE_UNREADABLE',
      `${where()}: "${shown(body)}" is not complete JSON (${(error as Error).message}).`,
    )
  }
  const records = readPack(pack)
  if (isSenmlRefusal(records))
    return refuse(records.tooMany ? 'E_TOO_MANY_RECORDS' : 'E_SENML', `${where()}: ${records.message}.`)
  return packArrivals(frame, records, (code, message) => refuse(code, `${where()}: ${message}`))
}

const BYTE_ORDER_MARK = 0xfeff

/** Bytes as UTF-8 text without a byte order mark, or null where they are none. */
function textOf(bytes: Uint8Array): string | null {
  // several times as fast as the strict decoder, which is asked only where this one may have put something right
  const text = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length).toString()
  if (!text.includes('\uFFFD') && text.charCodeAt(0) !== BYTE_ORDER_MARK) return text
  try {
    return decoder.decode(bytes)
  } catch {
    return null
  }
}

function looksLikeJson(body: string): boolean {
  return body.startsWith('[') || body.startsWith('{')
}

function columnsArrival(frame: Frame, board: string, signals: readonly ColumnSignal[]): Arrival {
  return {
    source: frame.source,
    board,
    arrivedMs: frame.arrivedMs,
    startup: null,
    number: null,
    timeOrigin: 'arrival',
    bytes: frame.bytes,
    signals: signals.map(({ channel, unit, value }) => ({
      channel,
      unit,
      timeMs: frame.arrivedMs,
      signal: value,
    })),
    about: null,
  }
}

/** Channels that belong to the protocol, not to a probe: see firmware-notes/PROTOCOL.md. */
interface Numbering {
  startup?: number
  message?: number
}

interface BoardRecords {
  board: string
  numbering: Numbering
  about: string | null
  seconds: number[]
  /** their times are still to be resolved */
  signals: Signal[]
}

function packArrivals(
  frame: Frame,
  records: readonly SenmlRecord[],
  refuse: (code: ErrorCode, message: string) => Unreadable[],
): (Arrival | Unreadable)[] {
  const boards: BoardRecords[] = []
  for (const record of records) {
    const name = splitName(record.name)
    const board = name.board ?? frame.board ?? boardOfSource(frame.source)
    const { channel } = name
    if (channel === '' || board.length > 64 || channel.length > 64)
      return refuse(
        'E_BOARD_NAME',
        `the record name "${shown(record.name)}" has no usable board and channel.`,
      )
    if (board === TYPED_BOARD && !isTypedSource(frame.source))
      return refuse('E_BOARD_NAME', `the name "${TYPED_BOARD}" is kept for values that people type in.`)
    if (frame.format === 'pack' && frame.board !== null && board !== frame.board)
      return refuse('E_OTHER_BOARD', `the pack speaks for board "${board}", its topic for "${frame.board}".`)
    let of = boards.find((one) => one.board === board)
    if (!of) {
      of = { board, numbering: {}, about: null, seconds: [], signals: [] }
      boards.push(of)
    }
    const number = record.value ?? numberOf(record.more)
    if (channel === 'startup' || channel === 'message') {
      if (number === undefined || !Number.isSafeInteger(number) || number < 0)
        return refuse(
          'E_SENML',
          `"${channel}" should be a whole number from 0 on, it is ${number ?? 'missing'}.`,
        )
      of.numbering[channel] = number
    } else if (channel === 'about') of.about = record.more?.text ?? null
    else if (number !== undefined) {
      of.seconds.push(record.seconds)
      of.signals.push({ channel, unit: record.unit, timeMs: 0, signal: number })
    }
  }
  return boards.map(({ board, numbering, about, seconds, signals }) => {
    const { timesMs, origin } = resolveTimes(seconds, frame.arrivedMs)
    for (const [place, signal] of signals.entries()) signal.timeMs = timesMs[place]!
    const { startup, message } = numbering
    const isNumbered = startup !== undefined && message !== undefined
    return {
      source: frame.source,
      board,
      arrivedMs: frame.arrivedMs,
      startup: isNumbered ? startup : null,
      number: isNumbered ? message : null,
      timeOrigin: origin,
      bytes: frame.bytes,
      signals,
      about,
    }
  })
}

/** What stands for the number of a record without one: true and false as 1 and 0, or the sum. */
function numberOf(more: SenmlMore | null): number | undefined {
  return more?.truth === undefined ? more?.sum : Number(more.truth)
}

interface SplitName {
  /** null: the name is a channel's alone */
  board: string | null
  channel: string
}

const NAMES_AT_MOST = 4096
/** A class uses the same names over and over: splitting them anew was a third of the work on a message. */
const splitNames = new Map<string, SplitName>()

function splitName(name: string): SplitName {
  let split = splitNames.get(name)
  if (!split) {
    const cut = Math.max(name.lastIndexOf('/'), name.lastIndexOf(':'))
    split = { board: cut > 0 ? wireSafe(name.slice(0, cut)) : null, channel: wireSafe(name.slice(cut + 1)) }
    if (splitNames.size >= NAMES_AT_MOST) splitNames.clear()
    splitNames.set(name, split)
  }
  return split
}

/** SenML names may hold `:` and `/` (a URN, say); a board's or channel's own name may not. */
function wireSafe(name: string): string {
  return name.replace(/[:/]+/g, '-').replace(/^[^A-Za-z0-9]+/, '')
}

/** A board that gave no name is called after the port or client it came by. */
export function boardOfSource(source: string): string {
  const name = source
    .replace(/^(serial|mqtt|capture):/, '')
    .replace(/[^A-Za-z0-9._-]+/g, '-')
    .replace(/^[^A-Za-z0-9]+/, '')
  return `port-${name}`.slice(0, 64)
}

function shown(text: string): string {
  return text.length > 80 ? `${text.slice(0, 80)}…` : text
}
