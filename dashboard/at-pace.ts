/** A device is left at least so many times as long as it needed to draw: a slow phone draws less often and stays awake to fingers. */
const REST = 9

/**
 * Runs `work`, which changes what is drawn, at once after a pause; while it is asked for again and again, as often as this
 * device can draw it without being busy with it.
 * @param leastMs  never more often than this
 */
export function atPace(leastMs: number, work: () => void): () => void {
  let isResting = false
  let isWanted = false
  const run = () => {
    isWanted = false
    isResting = true
    const begun = performance.now()
    work()
    afterDrawing(() => {
      const tookMs = performance.now() - begun
      setTimeout(
        () => {
          isResting = false
          if (isWanted) run()
        },
        Math.max(leastMs - tookMs, REST * (tookMs - A_FRAME_MS)),
      )
    })
  }
  return () => {
    isWanted = true
    if (!isResting) run()
  }
}

/** waited for in any case, however fast the device is */
const A_FRAME_MS = 17

/** After the next frame and the effects that follow it, such as charts. */
function afterDrawing(then: () => void): void {
  requestAnimationFrame(() => setTimeout(() => setTimeout(then)))
}
