import { useRef } from 'preact/hooks'

/**
 * A moving value that stands still between two steps at least `everyMs` of real time apart.
 * @param anew  when this is another than before, it steps at once
 */
export function useSteps<T>(moving: T, everyMs: number, anew: unknown): T {
  const step = useRef<{ value: T; at: number; anew: unknown } | null>(null)
  const now = performance.now()
  if (step.current === null || step.current.anew !== anew || now - step.current.at >= everyMs)
    step.current = { value: moving, at: now, anew }
  return step.current.value
}
