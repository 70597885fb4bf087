import { Transform, type TransformCallback } from 'node:stream'

const LINE_FEED = 0x0a

/**
 * Passes bytes on to the line parser, but never lets a line grow beyond `ceilingBytes`: the parser's own buffer has
 * no limit. A longer line is handed to `onTooLong` in pieces, so that none of its bytes is lost, up to its line feed.
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
      this.#take(part)
      if (end !== -1) this.#endLine()
    }
    done()
  }

  #take(part: Buffer): void {
    let left = part
    while (this.#heldBytes + left.length > this.#ceilingBytes + 1) {
      const fits = this.#ceilingBytes - this.#heldBytes
      this.#held.push(left.subarray(0, fits))
      this.#isTooLong = true
      this.#onTooLong(Buffer.concat(this.#held))
      this.#clear()
      left = left.subarray(fits)
    }
    this.#held.push(left)
    this.#heldBytes += left.length
  }

  #endLine(): void {
    const line = Buffer.concat(this.#held)
    this.#clear()
    if (this.#isTooLong) this.#onTooLong(line)
    else this.push(line)
    this.#isTooLong = false
  }

  #clear(): void {
    this.#held = []
    this.#heldBytes = 0
  }
}
