import { useRef, useState } from 'preact/hooks'
import { hubNowMs } from '../../hub-clock.ts'
import { afterTap, type Marked, spanBetween } from './span.ts'

/** The span marked on one chart, and the ways to mark it. */
export function useMarkedSpan() {
  const [marked, setMarked] = useState<Marked>(null)
  const [isMarking, setMarking] = useState(false)
  // the chart is made once and keeps what it was given: taps are asked about as they come
  const isTaking = useRef(isMarking)
  isTaking.current = isMarking
  const anchorMs = useRef<number | null>(null)
  return {
    marked,
    setMarked(next: Marked): void {
      if (next === null) anchorMs.current = null
      setMarked(next)
    },
    isMarking,
    setMarking,
    /** @returns whether the tap was taken for an end */
    tap(timeMs: number): boolean {
      if (isTaking.current) setMarked((before) => afterTap(before, timeMs, hubNowMs()))
      return isTaking.current
    },
    drag: (oneMs: number, otherMs: number) => setMarked(spanBetween(oneMs, otherMs, hubNowMs())),
    /** With the keyboard: from where it began to where it is now. */
    stretch(beganMs: number, nowAtMs: number): void {
      anchorMs.current ??= beganMs
      setMarked(spanBetween(anchorMs.current, nowAtMs, hubNowMs()))
    },
    letGo(): void {
      anchorMs.current = null
    },
  }
}
