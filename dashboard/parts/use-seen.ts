import type { RefObject } from 'preact'
import { useEffect, useState } from 'preact/hooks'

/** Whether an element is on the screen, or nearly: what is not need not be drawn. */
export function useSeen(ref: RefObject<Element | null>): boolean {
  const [isSeen, setSeen] = useState(false)
  useEffect(() => {
    const element = ref.current
    if (!element) return
    const observer = new IntersectionObserver((entries) => setSeen(entries.at(-1)?.isIntersecting ?? false), {
      rootMargin: '200px 0px',
    })
    observer.observe(element)
    return () => observer.disconnect()
  }, [ref])
  return isSeen
}
