/** Less than this is a click, px. */
const LEAST_PX = 5

/**
 * Follows a mouse or a pen that is drawn across a chart. A finger is left to scroll and tap.
 * @param timeAt  the time at so many px from the left
 */
export function followDrag(
  over: HTMLElement,
  timeAt: (x: number) => number,
  tell: (oneMs: number, otherMs: number) => void,
): void {
  let beganX: number | null = null
  let isDrawn = false
  const within = (event: PointerEvent) => {
    const box = over.getBoundingClientRect()
    return Math.min(box.width, Math.max(0, event.clientX - box.left))
  }
  over.addEventListener('pointerdown', (event) => {
    if (event.pointerType === 'touch' || event.button !== 0) return
    beganX = within(event)
    isDrawn = false
    over.setPointerCapture(event.pointerId)
  })
  over.addEventListener('pointermove', (event) => {
    if (beganX === null) return
    const x = within(event)
    isDrawn ||= Math.abs(x - beganX) >= LEAST_PX
    if (isDrawn) tell(timeAt(beganX), timeAt(x))
  })
  const end = () => {
    beganX = null
    // the click that follows belongs to the drag
    setTimeout(() => {
      isDrawn = false
    })
  }
  over.addEventListener('pointerup', end)
  over.addEventListener('pointercancel', end)
  over.addEventListener(
    'click',
    (event) => {
      if (isDrawn) event.stopImmediatePropagation()
    },
    { capture: true },
  )
}
