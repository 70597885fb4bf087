import { createWriteStream, type WriteStream } from 'node:fs'
import { open } from 'node:fs/promises'
import { createInterface } from 'node:readline'
import { rfc3339 } from '../clock.ts'
import { HubError, messageOf } from '../errors.ts'
import type { Frame, Receive } from './source.ts'

/** First line of a capture file. Then one JSON line a frame: `at`, `source`, `format`, `board`, `bytes` (base64). */
const HEADING = { tussockCapture: 1 }

/** Records everything that arrives, byte for byte, on its way to `receive`. */
export class CaptureRecorder {
  readonly #file: WriteStream
  readonly path: string

  constructor(path: string) {
    this.path = path
    this.#file = createWriteStream(path, { flags: 'wx' })
    this.#file.write(`${JSON.stringify(HEADING)}\n`)
  }

  /** @param onError told once when the file cannot be written; the hub goes on without it */
  onError(onError: (error: Error) => void): void {
    this.#file.on('error', onError)
  }

  record(frame: Frame): void {
    const { source, format, board, bytes, fault } = frame
    const line = {
      at: rfc3339(frame.arrivedMs),
      source,
      format,
      board,
      bytes: Buffer.from(bytes).toString('base64'),
      ...(fault ? { fault } : {}),
    }
    this.#file.write(`${JSON.stringify(line)}\n`)
  }

  close(): Promise<void> {
    return new Promise((resolve) => this.#file.end(resolve))
  }
}

/**
 * Sends every frame of a capture file through `receive`, with the arrival times recorded.
 * @returns how many frames were durable
 * @throws HubError `E_CAPTURE` naming the line that cannot be read; the lines before it are durable by then
 */
export async function replayCapture(path: string, receive: Receive): Promise<number> {
  const waiting = new Set<Promise<void>>()
  let settled = 0
  let failure: Error | null = null
  try {
    for await (const frame of readCapture(path)) {
      const done: Promise<void> = new Promise<void>((resolve) => {
        receive(frame, (error) => {
          if (error) failure ??= error
          else settled++
          resolve()
        })
      }).then(() => void waiting.delete(done))
      waiting.add(done)
      if (waiting.size >= 1000) await Promise.race(waiting)
      if (failure) break
    }
  } finally {
    await Promise.all(waiting)
  }
  if (failure) throw failure
  return settled
}

async function* readCapture(path: string): AsyncGenerator<Frame> {
  const file = await open(path).catch((error: unknown) => {
    throw new HubError('E_CAPTURE', `${path} cannot be read (${messageOf(error)}).`, { cause: error })
  })
  const lines = createInterface({ input: file.createReadStream(), crlfDelay: Number.POSITIVE_INFINITY })
  let number = 0
  for await (const line of lines) {
    number++
    if (number > 1 && line === '') continue
    const fields = parse(line, path, number)
    if (number > 1) yield asFrame(fields, path, number)
    else if (fields['tussockCapture'] !== 1) throw notACapture(path)
  }
  if (number === 0) throw notACapture(path)
}

function notACapture(path: string): HubError {
  return new HubError('E_CAPTURE', `${path} does not begin as a capture file does.`)
}

function parse(line: string, path: string, number: number): Record<string, unknown> {
  try {
    const fields: unknown = JSON.parse(line)
    if (typeof fields === 'object' && fields !== null) return fields as Record<string, unknown>
  } catch {
    // said below, with its place
  }
  throw new HubError('E_CAPTURE', `${path}, line ${number}: not a line of a capture file.`)
}

function asFrame(fields: Record<string, unknown>, path: string, number: number): Frame {
  const { at, source, format, board, bytes, fault } = fields
  const arrivedMs = typeof at === 'string' ? Date.parse(at) : Number.NaN
  if (
    !Number.isFinite(arrivedMs) ||
    typeof source !== 'string' ||
    typeof bytes !== 'string' ||
    (format !== 'line' && format !== 'pack' && format !== 'columns') ||
    (board !== null && typeof board !== 'string')
  )
    throw new HubError(
      'E_CAPTURE',
      `${path}, line ${number}: at, source, format, board or bytes is not as it should be.`,
    )
  return {
    source,
    arrivedMs,
    format,
    board,
    bytes: Buffer.from(bytes, 'base64'),
    ...(fault ? { fault: fault as NonNullable<Frame['fault']> } : {}),
  }
}
