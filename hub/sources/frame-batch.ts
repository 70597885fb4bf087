import type { FrameBatch, FrameHead } from './broker-words.ts'
import type { Frame } from './source.ts'

/** Gathers frames into a batch that is cheap to hand to another thread. */
export class FrameGatherer {
  #frames: Frame[] = []

  get count(): number {
    return this.#frames.length
  }

  add(frame: Frame): void {
    this.#frames.push(frame)
  }

  /** What was gathered, in the order it came; begins anew. */
  take(): FrameBatch {
    const frames = this.#frames
    this.#frames = []
    const heads: FrameHead[] = []
    const headOf = new Uint32Array(frames.length)
    const arrivedMs = new Float64Array(frames.length)
    const ends = new Uint32Array(frames.length)
    const bytes = new Uint8Array(frames.reduce((sum, frame) => sum + frame.bytes.length, 0))
    const places = new Map<string, number>()
    let end = 0
    for (const [index, frame] of frames.entries()) {
      const { source, format, board, fault } = frame
      const key = `${source}\n${board}\n${format}`
      let place = fault ? undefined : places.get(key)
      if (place === undefined) {
        place = heads.push({ source, format, board, ...(fault ? { fault } : {}) }) - 1
        if (!fault) places.set(key, place)
      }
      headOf[index] = place
      arrivedMs[index] = frame.arrivedMs
      bytes.set(frame.bytes, end)
      end += frame.bytes.length
      ends[index] = end
    }
    return { heads, headOf, arrivedMs, ends, bytes }
  }
}

/** The frames of a batch, in order. Their bytes are views into the batch. */
export function* framesOf(batch: FrameBatch): Generator<Frame> {
  let start = 0
  for (let index = 0; index < batch.ends.length; index++) {
    const end = batch.ends[index]!
    const bytes = batch.bytes.subarray(start, end)
    start = end
    yield { ...batch.heads[batch.headOf[index]!]!, arrivedMs: batch.arrivedMs[index]!, bytes }
  }
}
