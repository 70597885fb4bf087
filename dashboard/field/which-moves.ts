/** A signal of a channel as it was sent. */
export interface SignalAt {
  timeMs: number
  signal: number
}

/** The newest so many signals are what happens now. */
const NOW_SIGNALS = 3
/** …against the minute before them, or as many intervals as this where a board samples seldom. */
const BEFORE_MS = 60_000
const BEFORE_SIGNALS = 6
/** So many times further than it wanders by itself: something is being done to it. Common practice, no source. */
const TIMES = 5
/** A signal that stands still counts as wandering by this part of itself, so that its last digit is no jump. */
const STILL_PART = 0.002
/** …and by at least this much in its unit: a converter flips its last digits by itself. Common practice, no source. */
const STILL_BY_UNIT: Readonly<Record<string, number>> = { Cel: 0.1, mV: 1, V: 0.001, count: 2, Hz: 0.2 }

/**
 * How far the newest signals of a channel lie from where it was in the minute before, in units of its own wandering
 * there. A hand over a light sensor, a shaken board or a breath on a thermometer give many times its usual.
 * @param signals  rising in time
 * @param unit  of the signal, as SenML writes it
 * @returns null when there are too few to say
 */
export function movedBy(signals: readonly SignalAt[], unit: string): number | null {
  const now = signals.slice(-NOW_SIGNALS)
  const earlier = signals.slice(0, -NOW_SIGNALS)
  const first = now[0]
  if (now.length < NOW_SIGNALS || !first) return null
  const inMinute = earlier.filter(({ timeMs }) => first.timeMs - timeMs <= BEFORE_MS)
  const before = inMinute.length >= BEFORE_SIGNALS ? inMinute : earlier.slice(-BEFORE_SIGNALS)
  if (before.length < BEFORE_SIGNALS) return null
  const middle = median(before.map(({ signal }) => signal))
  const wander = distanceFrom(middle, before)
  const still = Math.max(STILL_PART * Math.abs(middle), STILL_BY_UNIT[unit] ?? Number.EPSILON)
  return distanceFrom(middle, now) / Math.max(wander, still)
}

/** Whether something is being done to it now. */
export function isMoving(signals: readonly SignalAt[], unit: string): boolean {
  return (movedBy(signals, unit) ?? 0) >= TIMES
}

/** Root mean square. */
function distanceFrom(middle: number, signals: readonly SignalAt[]): number {
  const sum = signals.reduce((total, { signal }) => total + (signal - middle) ** 2, 0)
  return Math.sqrt(sum / signals.length)
}

function median(numbers: readonly number[]): number {
  const sorted = numbers.toSorted((one, other) => one - other)
  const half = sorted.length >> 1
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2
}
