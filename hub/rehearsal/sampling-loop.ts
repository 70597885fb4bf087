import type { RehearsalClock } from './rehearsal-clock.ts'
import { nextInstant } from './sampling.ts'

/** longest that a Node timer can wait */
const longestTimerMs = 2 ** 31 - 1

export interface SamplingLoop {
  changeInterval(seconds: number): void
  stop(): void
}

/**
 * Calls at every moment of the grid start + k · interval, beginning with k = 1, and catches up when the machine
 * was late: no moment is left out, and none shifts.
 * @param endMs  simulated end, or null
 */
export function runSampling(
  clock: RehearsalClock,
  intervalSeconds: number,
  endMs: number | null,
  measure: (instantMs: number, intervalSeconds: number) => void,
): SamplingLoop {
  let interval = intervalSeconds
  let next = nextInstant(clock.startMs, interval * 1000, clock.startMs)
  let timer: NodeJS.Timeout | undefined

  const wait = () => {
    timer = setTimeout(work, Math.min(longestTimerMs, Math.ceil(clock.realMsUntil(next))))
  }
  const work = () => {
    const now = clock.now()
    while (next <= now && (endMs === null || next <= endMs)) {
      measure(next, interval)
      next = nextInstant(clock.startMs, interval * 1000, next)
    }
    if (endMs === null || next <= endMs) wait()
  }
  wait()

  return {
    stop: () => clearTimeout(timer),
    changeInterval: (seconds) => {
      clearTimeout(timer)
      interval = seconds
      next = nextInstant(clock.startMs, interval * 1000, clock.now())
      wait()
    },
  }
}
