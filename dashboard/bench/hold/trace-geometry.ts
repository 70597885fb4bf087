import type { HeldSample, SteadyRule } from '../../../calibration/index.ts'

export interface Trace {
  /** path of the signal */
  path: string
  /** the newest signal */
  end: { x: number; y: number } | null
  /** where the window begins */
  windowX: number
  /** the height the signal may wander in, about the middle of the window */
  lane: { top: number; height: number } | null
  seconds: number
}

/** Enough to see how it settles, also of a board that sends seldom. */
export function traceSeconds(rule: SteadyRule, intervalSeconds: number): number {
  return Math.max(60, rule.windowSeconds * 2, intervalSeconds * 12)
}

/** So many allowed spans are shown either way at most. */
const REACH = 6

/** The last stretch of a signal, drawn into a box; never magnified so far that the allowed wandering fills it. */
export function traceOf(
  samples: readonly HeldSample[],
  rule: SteadyRule,
  window: readonly HeldSample[],
  box: { width: number; height: number },
): Trace {
  const newest = samples.at(-1)
  const before = samples.at(-2)
  const seconds = traceSeconds(rule, newest && before ? Math.max(1, newest.seconds - before.seconds) : 1)
  if (!newest) return { path: '', end: null, windowX: box.width, lane: null, seconds }
  const shown = samples.filter((sample) => newest.seconds - sample.seconds <= seconds)
  const values = shown.map(({ value }) => value)
  const inWindow = window.length > 0 ? window.map(({ value }) => value) : [newest.value]
  const middle = (Math.max(...inWindow) + Math.min(...inWindow)) / 2
  const allowed = Math.max(rule.span, (rule.relativeSpan ?? 0) * Math.abs(middle), 1e-9)
  // the jump from one beaker to the next leaves the box, so that the settling can be seen
  const low = Math.max(middle - REACH * allowed, Math.min(...values, middle - 1.5 * allowed))
  const high = Math.min(middle + REACH * allowed, Math.max(...values, middle + 1.5 * allowed))
  const pad = 4
  const x = (at: number) => box.width - pad - ((newest.seconds - at) / seconds) * (box.width - 2 * pad)
  const y = (value: number) => pad + ((high - value) / (high - low)) * (box.height - 2 * pad)
  const path = shown
    .map(
      ({ seconds: at, value }, index) =>
        `${index === 0 ? 'M' : 'L'}${x(at).toFixed(1)} ${y(value).toFixed(1)}`,
    )
    .join('')
  return {
    path,
    end: { x: x(newest.seconds), y: y(newest.value) },
    windowX: Math.max(0, x(window[0]?.seconds ?? newest.seconds)),
    lane:
      window.length === 0
        ? null
        : {
            top: y(middle + allowed / 2),
            height: Math.max(1.5, y(middle - allowed / 2) - y(middle + allowed / 2)),
          },
    seconds,
  }
}
