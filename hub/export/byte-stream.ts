import { setImmediate as nextTurn } from 'node:timers/promises'

/** A reader who takes nothing for so long is given up, because what he reads keeps the hub from tidying its files. */
const STALLED_MS = 120_000

/**
 * Bytes as they are made, at the reader's pace, with a pause for other requests after each piece.
 * @param atEnd  called once, however it ends: read to the end, cancelled, failed or given up
 */
export function byteStream(
  pieces: AsyncGenerator<Uint8Array>,
  atEnd: () => void,
  stalledMs = STALLED_MS,
): ReadableStream<Uint8Array> {
  let isOver = false
  let patience: NodeJS.Timeout | undefined
  const end = async () => {
    clearTimeout(patience)
    if (isOver) return
    isOver = true
    await pieces.return(undefined)
    atEnd()
  }
  return new ReadableStream({
    async pull(controller) {
      clearTimeout(patience)
      try {
        await nextTurn()
        const next = await pieces.next()
        if (isOver) return
        if (next.done) {
          await end()
          controller.close()
          return
        }
        controller.enqueue(next.value)
        patience = setTimeout(() => {
          controller.error(new Error(`nothing was read for ${stalledMs / 1000} s`))
          void end()
        }, stalledMs).unref()
      } catch (error) {
        await end()
        controller.error(error)
      }
    },
    cancel: end,
  })
}
