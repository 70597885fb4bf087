import { setImmediate as nextTurn } from 'node:timers/promises'

/** Bytes as they are made, at the reader's pace, with a pause for other requests after each piece. */
export function byteStream(pieces: AsyncGenerator<Uint8Array>): ReadableStream<Uint8Array> {
  return new ReadableStream({
    async pull(controller) {
      try {
        await nextTurn()
        const next = await pieces.next()
        if (next.done) controller.close()
        else controller.enqueue(next.value)
      } catch (error) {
        controller.error(error)
      }
    },
    async cancel() {
      await pieces.return(undefined)
    },
  })
}
