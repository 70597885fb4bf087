import { MAX_FRAME_BYTES } from '../sources/source.ts'
import { type Point, right, shown, untested, wrong } from './point.ts'
import { isSenmlUnit } from './senml-units.ts'
import type { Heard, Transcript } from './transcript.ts'

const BOARD = /^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$/

/** How a board's lines or messages are written, whatever they say. */
export function judgeForm(transcript: Transcript, all: readonly Heard[]): Point[] {
  const isSerial = transcript.way === 'serial'
  return [
    judgePacks(all),
    judgeName(all, transcript.board),
    judgeUnits(all),
    isSerial ? judgeChecksum(all) : untested('checksum', 'on serial only'),
    judgeLength(all),
    ...(isSerial ? [] : [judgeQos(all), judgeLink(transcript)]),
  ]
}

function judgePacks(all: readonly Heard[]): Point {
  const bad = all.find(({ trouble }) => trouble !== null)
  if (bad) return wrong('SenML', `${bad.trouble}: ${shown(bad.text)}`)
  return right('SenML', `${all.length} packs`)
}

function judgeName(all: readonly Heard[], asked: string | null): Point {
  const boards = [...new Set(all.flatMap((heard) => heard.boards))]
  const bad = boards.find((board) => board !== '' && !BOARD.test(board))
  if (bad !== undefined)
    return wrong('name', `"${shown(bad)}": letters, digits, dot, dash, underscore; at most 64`)
  if (boards.length > 1) return wrong('name', `several names: ${shown(boards.join(', '))}`)
  const [board = ''] = boards
  if (asked !== null && board !== '' && board !== asked)
    return wrong('name', `it speaks for "${board}", its topic is of "${asked}"`)
  if (board === '' && asked === null && all.length > 0)
    return wrong('name', 'records are named without a board: board/channel')
  return boards.length === 0 ? untested('name', 'no pack could be read') : right('name', board || asked!)
}

function judgeUnits(all: readonly Heard[]): Point {
  const signals = all.flatMap((heard) => heard.signals)
  const bad = signals.find(({ unit }) => !isSenmlUnit(unit))
  if (bad)
    return wrong(
      'units',
      bad.unit === ''
        ? `${bad.channel} has no unit`
        : `${bad.channel}: "${shown(bad.unit)}" is no SenML unit`,
    )
  const channels = [...new Set(signals.map(({ channel, unit }) => `${channel} ${unit}`))]
  return channels.length === 0 ? untested('units', 'no signal came') : right('units', channels.join(', '))
}

function judgeChecksum(all: readonly Heard[]): Point {
  const bad = all.find(({ checksum }) => checksum === 'wrong')
  if (bad) return wrong('checksum', `${bad.trouble}: ${shown(bad.text)}`)
  const bare = all.filter(({ checksum }) => checksum === 'none')
  if (bare.length === 0) return right('checksum', `on all ${all.length} lines`)
  if (bare.length === all.length) return untested('checksum', 'lines have none; one is advised')
  return wrong('checksum', `missing on some lines: ${shown(bare[0]!.text)}`)
}

function judgeLength(all: readonly Heard[]): Point {
  const longest = Math.max(0, ...all.map(({ text }) => Buffer.byteLength(text)))
  return longest > MAX_FRAME_BYTES
    ? wrong('length', `${longest} bytes; ${MAX_FRAME_BYTES} are read`)
    : right('length', `at most ${longest} bytes`)
}

function judgeQos(all: readonly Heard[]): Point {
  const bare = all.filter(({ qos }) => qos === 0).length
  return bare > 0
    ? wrong('QoS 1', `${bare} of ${all.length} came with QoS 0`)
    : right('QoS 1', 'on all messages')
}

function judgeLink({ events }: Transcript): Point {
  const last = events.filter((event) => event.kind === 'link').at(-1)
  if (!last)
    return wrong('link', 'nothing on its topic "link"; "up" after connecting, "lost" as the last will')
  if (last.text !== 'up') return wrong('link', `"${shown(last.text)}" although messages come`)
  return right('link', 'up; its last will cannot be seen while it is connected')
}
