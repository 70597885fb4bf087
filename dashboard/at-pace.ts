/** A device is left so many times as long as it needed to draw: a slow phone draws less often, and heeds fingers. */
const REST = 14

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
    whenDrawn(begun, (tookMs) => {
      const restMs = Math.max(REST * tookMs, begun + leastMs - performance.now())
      setTimeout(() => {
        isResting = false
        if (isWanted) run()
      }, restMs)
    })
  }
  return () => {
    isWanted = true
    if (!isResting) run()
  }
}

/** After the next frame and the effects that follow it, such as charts; `tookMs` leaves out the wait for the frame. */
function whenDrawn(begun: number, then: (tookMs: number) => void): void {
  let renderedMs = 0
  // the components were queued before this
  queueMicrotask(() => {
    renderedMs = performance.now() - begun
  })
  requestAnimationFrame(() => {
    const frameBegun = performance.now()
    setTimeout(() => setTimeout(() => then(renderedMs + performance.now() - frameBegun)))
  })
}
