import { Transform, type TransformCallback } from 'node:stream'

const LINE_FEED = 0x0a
const CARRIAGE_RETURN = 0x0d

/**
 * Passes bytes on to the line parser, but never lets a line grow beyond `ceilingBytes`, its LF or CR LF not counted:
 * the parser's own buffer has no limit. A longer line is handed to `onTooLong` in pieces of at most that size, so
 * that none of its bytes is lost, up to its line feed.
 */
export class LineCeiling extends Transform {
  readonly #ceilingBytes: number
  readonly #onTooLong: (piece: Buffer) => void
  #held: Buffer[] = []
  #heldBytes = 0
  #isTooLong = false

  constructor(ceilingBytes: number, onTooLong: (piece: Buffer) => void) {
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
      this.#heldBytes += part.length
      if (end !== -1) this.#endLine()
      // one byte more than the ceiling may be the CR of a line that is just short enough
      else if (this.#heldBytes > this.#ceilingBytes + 1) this.#spill()
    }
    done()
  }

  /** Takes out what has come of a line without its end; for when no more will come. */
  takeRest(): Buffer {
    const rest = Buffer.concat(this.#held)
    this.#hold(rest.subarray(rest.length))
    this.#isTooLong = false
    return rest
  }

  #endLine(): void {
    const line = Buffer.concat(this.#held)
    const endBytes = line.at(-2) === CARRIAGE_RETURN ? 2 : 1
    if (!this.#isTooLong && line.length - endBytes <= this.#ceilingBytes) this.push(line)
    else this.#handOn(line, 0)
    this.#hold(line.subarray(line.length))
    this.#isTooLong = false
  }

  #spill(): void {
    this.#isTooLong = true
    this.#hold(this.#handOn(Buffer.concat(this.#held), this.#ceilingBytes))
  }

  /** @returns what is left once no more than `untilBytes` are */
  #handOn(bytes: Buffer, untilBytes: number): Buffer {
    let left = bytes
    while (left.length > untilBytes) {
      this.#onTooLong(left.subarray(0, this.#ceilingBytes))
      left = left.subarray(this.#ceilingBytes)
    }
    return left
  }

  #hold(bytes: Buffer): void {
    this.#held = bytes.length === 0 ? [] : [bytes]
    this.#heldBytes = bytes.length
  }
}
