import { Transform, type TransformCallback } from 'node:stream'

const LINE_FEED = 0x0a
const CARRIAGE_RETURN = 0x0d
/** as many bytes without a line feed are looked at: noise seldom has one, and must not wait for it */
const LOOK_BYTES = 512

/** Whether bytes are UTF-8, but for a letter that is not complete yet. */
export function isText(bytes: Uint8Array): boolean {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes, { stream: true })
    return true
  } catch {
    return false
  }
}

/**
 * Passes bytes on to the line parser, but never lets a line grow beyond `ceilingBytes`, its LF or CR LF not counted:
 * the parser's own buffer has no limit. A longer line, or noise that is no text, is handed to `onTooLong` in pieces of at
 * most that size, so that none of its bytes is lost, up to its line feed.
 */
export class LineCeiling extends Transform {
  readonly #ceilingBytes: number
  readonly #onTooLong: (piece: Buffer, isNoise: boolean) => void
  #held: Buffer[] = []
  #heldBytes = 0
  #isTooLong = false
  #isNoise = false

  constructor(ceilingBytes: number, onTooLong: (piece: Buffer, isNoise: boolean) => void) {
    super()
    this.#ceilingBytes = ceilingBytes
    this.#onTooLong = onTooLong
  }

  override _transform(chunk: Buffer, _encoding: BufferEncoding, done: TransformCallback): void {
    let rest = chunk
    while (rest.length > 0) {
      const end = rest.indexOf(LINE_FEED)
      const part = end === -1 ? rest : rest.subarray(0, end + 1)
      rest = rest.subarray(part.length)
      this.#held.push(part)
      const looked = Math.floor(this.#heldBytes / LOOK_BYTES)
      this.#heldBytes += part.length
      if (end !== -1) this.#endLine()
      // one byte more than the ceiling may be the CR of a line that is just short enough
      else if (this.#heldBytes > this.#ceilingBytes + 1) this.#spill(this.#ceilingBytes)
      else if (Math.floor(this.#heldBytes / LOOK_BYTES) > looked && !isText(Buffer.concat(this.#held))) {
        this.#isNoise = true
        this.#spill(0)
      }
    }
    done()
  }

  /** Takes out what has come of a line without its end; for when no more will come. */
  takeRest(): Buffer {
    const rest = Buffer.concat(this.#held)
    this.#hold(rest.subarray(rest.length))
    this.#isTooLong = false
    this.#isNoise = false
    return rest
  }

  #endLine(): void {
    const line = Buffer.concat(this.#held)
    const endBytes = line.at(-2) === CARRIAGE_RETURN ? 2 : 1
    if (!this.#isTooLong && line.length - endBytes <= this.#ceilingBytes) this.push(line)
    else this.#handOn(line, 0)
    this.#hold(line.subarray(line.length))
    this.#isTooLong = false
    this.#isNoise = false
  }

  #spill(untilBytes: number): void {
    this.#isTooLong = true
    this.#hold(this.#handOn(Buffer.concat(this.#held), untilBytes))
  }

  /** @returns what is left once no more than `untilBytes` are */
  #handOn(bytes: Buffer, untilBytes: number): Buffer {
    let left = bytes
    while (left.length > untilBytes) {
      this.#onTooLong(left.subarray(0, this.#ceilingBytes), this.#isNoise)
      left = left.subarray(this.#ceilingBytes)
    }
    return left
  }

  #hold(bytes: Buffer): void {
    this.#held = bytes.length === 0 ? [] : [bytes]
    this.#heldBytes = bytes.length
  }
}
