import {
  firstSteady,
  type HeldSample,
  judgeSteadiness,
  type Procedure,
  type SteadyRule,
} from '../../../calibration/index.ts'

/** What was held: the mean of the window and how it came to be. */
export interface Held {
  signal: number
  scatter: number | null
  n: number
  isForced: boolean
  secondsToSteady: number | null
}

/** A jump of so many allowed spans from one signal to the next is the probe being moved, not settling noise. */
const MOVED_SPANS = 8

/** Signals as samples of one hold, in the unit the procedure works in. */
export function samplesOf(
  heard: readonly { timeMs: number; signal: number }[],
  sinceMs: number,
  factor: number,
): HeldSample[] {
  return heard
    .filter(({ timeMs }) => timeMs >= sinceMs)
    .map(({ timeMs, signal }) => ({ seconds: timeMs / 1000, value: signal * factor }))
}

/** A procedure written for mV also takes a channel that sends V. */
export function signalFactor(procedure: Pick<Procedure, 'signalUnits'>, channelUnit: string): number {
  return procedure.signalUnits[0] === 'mV' && channelUnit === 'V' ? 1000 : 1
}

/** Unit the samples are in after {@link signalFactor}. */
export function heldUnit(procedure: Pick<Procedure, 'signalUnits'>, channelUnit: string): string {
  return signalFactor(procedure, channelUnit) === 1 ? channelUnit : 'mV'
}

/** The largest jump that is a move of the probe; null when it was not moved. */
export function moveAt(samples: readonly HeldSample[], rule: SteadyRule): number | null {
  let best: { index: number; size: number } | null = null
  for (let index = 1; index < samples.length; index++) {
    const size = Math.abs(samples[index]!.value - samples[index - 1]!.value)
    const level = Math.max(Math.abs(samples[index]!.value), Math.abs(samples[index - 1]!.value))
    const allowed = Math.max(rule.span, (rule.relativeSpan ?? 0) * level)
    const isMove = rule.relativeSpan === undefined ? size > MOVED_SPANS * allowed : size > 3 * allowed
    if (isMove && size > (best?.size ?? 0)) best = { index, size }
  }
  return best === null ? null : best.index
}

/** Samples from the last move of the probe on; all of them when it stayed. */
export function sinceMoved(samples: readonly HeldSample[], rule: SteadyRule): readonly HeldSample[] {
  const move = moveAt(samples, rule)
  return move === null ? samples : samples.slice(Math.max(0, move - 1))
}

/** The samples the rule looks at; of a window that is not full yet, those young enough. */
export function windowOf(samples: readonly HeldSample[], rule: SteadyRule): readonly HeldSample[] {
  const { value, sampleCount } = judgeSteadiness(samples, rule)
  return value === null ? newestOf(samples, rule) : samples.slice(-sampleCount)
}

/** Not older than the rule’s window: of a signal that moves, nothing further back should count. */
function newestOf(samples: readonly HeldSample[], rule: SteadyRule): readonly HeldSample[] {
  const newest = samples.at(-1)
  return newest ? samples.filter(({ seconds }) => newest.seconds - seconds <= rule.windowSeconds) : []
}

/** The point as it would be kept now; null without any signal. */
export function captureHeld(samples: readonly HeldSample[], rule: SteadyRule): Held | null {
  const isForced = !judgeSteadiness(samples, rule).steady
  const taken = isForced ? newestOf(samples, rule) : windowOf(samples, rule)
  const window = taken.map(({ value }) => value)
  if (window.length === 0) return null
  const signal = window.reduce((sum, each) => sum + each, 0) / window.length
  const squares = window.reduce((sum, each) => sum + (each - signal) ** 2, 0)
  const held = sinceMoved(samples, rule)
  return {
    signal,
    scatter: window.length < 2 ? null : Math.sqrt(squares / (window.length - 1)),
    n: window.length,
    isForced,
    secondsToSteady: settledAfter(held, rule),
  }
}

/**
 * Seconds from the move of the probe until it was steady; null when it never was. A board that sends seldom fills the
 * window late: what the window is longer than the rule asks for is the board's time, not the probe's.
 */
export function settledAfter(held: readonly HeldSample[], rule: SteadyRule): number | null {
  const first = firstSteady(held, rule)
  const began = held[0]
  if (first === null || !began) return null
  const window = windowOf(
    held.filter(({ seconds }) => seconds <= first.seconds),
    rule,
  )
  const extra = Math.max(0, first.seconds - window[0]!.seconds - rule.windowSeconds)
  return Math.max(0, Math.round(first.seconds - began.seconds - extra))
}
