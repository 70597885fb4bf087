import { setImmediate as nextTurn } from 'node:timers/promises'

/** Text as it is made, at the reader's pace, with a pause for other requests after each piece. */
export function textStream(pieces: Generator<string>, atEnd: () => void): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder()
  let isOver = false
  const end = () => {
    if (!isOver) {
      isOver = true
      pieces.return(undefined)
      atEnd()
    }
  }
  return new ReadableStream({
    async pull(controller) {
      try {
        await nextTurn()
        const next = pieces.next()
        if (!next.done) controller.enqueue(encoder.encode(next.value))
        else {
          end()
          controller.close()
        }
      } catch (error) {
        end()
        controller.error(error)
      }
    },
    cancel: end,
  })
}
