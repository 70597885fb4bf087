import { ReadlineParser } from '@serialport/parser-readline'
import type { SerialPort } from 'serialport'
import type { Clock } from '../clock.ts'
import { isText, LineCeiling } from './line-ceiling.ts'
import { type Frame, MAX_FRAME_BYTES, type Receive } from './source.ts'

/** A line that shows by itself whether its beginning is missing: JSON, or one with a checksum. */
const PROVES_ITSELF = /^[[{]|#[0-9A-F]{4}$/

/**
 * From the bytes of a port to frames, one a line. What is no whole line goes on too, marked as what it is: the pieces
 * of a line that is too long, what has come of a line when the port closes, and a first line whose beginning was
 * perhaps printed before the port was open: `12,23.1` of `512,23.1` would be a wrong number, not a wrong line.
 * @param wholeAfterMs bytes that come later than this after opening are taken to begin a line
 * @param answer called with what the board is to be told once its line is durable
 */
export function readLines(
  port: SerialPort,
  from: { path: string; board: string | null; wholeAfterMs: number },
  clock: Clock,
  receive: Receive,
  answer: (words: string) => void,
): void {
  const frame = (bytes: Buffer, fault?: NonNullable<Frame['fault']>): Frame => ({
    source: `serial:${from.path}`,
    arrivedMs: clock.nowMs(),
    format: 'line',
    board: from.board,
    bytes,
    ...(fault ? { fault } : {}),
  })
  const ceiling = new LineCeiling(MAX_FRAME_BYTES, (piece, isNoise) => {
    const code = isNoise ? 'E_NOT_TEXT' : 'E_LINE_TOO_LONG'
    const what = isNoise
      ? 'bytes that are not text, and no line ends'
      : `a line longer than ${MAX_FRAME_BYTES} bytes; this is a piece of it`
    receive(frame(piece, { code, message: `${from.path}: ${what}.` }))
  })
  let openedAtMs = 0
  let mayBeCut = false
  port.once('open', () => {
    openedAtMs = performance.now()
  })
  // before the pipe, so that it is known when the first line comes out
  port.once('data', () => {
    mayBeCut = performance.now() - openedAtMs < from.wholeAfterMs
  })
  const lines = port.pipe(ceiling).pipe(new ReadlineParser({ delimiter: '\n', encoding: 'latin1' }))
  lines.on('data', (line: string) => {
    const bytes = Buffer.from(line.endsWith('\r') ? line.slice(0, -1) : line, 'latin1')
    const isCut = mayBeCut && !PROVES_ITSELF.test(line.trimEnd()) && isText(bytes)
    mayBeCut = false
    if (bytes.length === 0) return
    if (isCut) {
      const message = `${from.path}: this line was under way when the port was opened; its beginning may be missing.`
      receive(frame(bytes, { code: 'E_LINE_UNREADABLE', message }))
    } else
      receive(frame(bytes), (error, replies) => {
        if (!error) for (const reply of replies()) answer(reply)
      })
  })
  port.on('close', () => {
    const rest = ceiling.takeRest()
    const message = `${from.path}: the line broke off when the port closed.`
    if (rest.length > 0) receive(frame(rest, { code: 'E_LINE_UNREADABLE', message }))
  })
}
