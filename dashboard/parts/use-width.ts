import type { RefObject } from 'preact'
import { useLayoutEffect, useRef, useState } from 'preact/hooks'

/** The width of an element in px, kept true; 0 before it is known. */
export function useWidth<E extends HTMLElement>(): [RefObject<E | null>, number] {
  const ref = useRef<E>(null)
  const [width, setWidth] = useState(0)
  useLayoutEffect(() => {
    const element = ref.current
    if (!element) return
    setWidth(Math.floor(element.clientWidth))
    const observer = new ResizeObserver(() => setWidth(Math.floor(element.clientWidth)))
    observer.observe(element)
    return () => observer.disconnect()
  }, [])
  return [ref, width]
}
