import type { TimeOrigin } from '../store/store.ts'
import { FIRST_ABSOLUTE_SECOND } from '../wire/senml.ts'

const DAY_MS = 86_400_000
/** A board's clock may be this far behind: a backlog of a long survey. Common practice, no source. */
const OLDEST_MS = 60 * DAY_MS
/** …and this far ahead, absolute or relative: clocks drift, and a line takes time on the wire. */
const NEWEST_MS = 5 * 60_000
const NEWEST_RELATIVE_MS = 5_000

export interface ResolvedTimes {
  timesMs: number[]
  origin: TimeOrigin
}

/**
 * When the signals of one message were true, UTC ms.
 * @param seconds as RFC 8428 gives them: below 2^28 relative to arrival, otherwise Unix time
 * @returns the board's times where they are possible; otherwise (a clock in 1970, or next year) all of the message
 *   shifted together so that its newest signal is at arrival, and the origin says so
 */
export function resolveTimes(seconds: readonly number[], arrivedMs: number): ResolvedTimes {
  let isPossible = true
  let newestMs = -Infinity
  let origin: TimeOrigin = 'arrival'
  const timesMs = seconds.map((second) => {
    const isRelative = second < FIRST_ABSOLUTE_SECOND
    const timeMs = Math.round(isRelative ? arrivedMs + second * 1000 : second * 1000)
    const ageMs = arrivedMs - timeMs
    if (ageMs > OLDEST_MS || ageMs < (isRelative ? -NEWEST_RELATIVE_MS : -NEWEST_MS)) isPossible = false
    if (!isRelative) origin = 'board clock'
    else if (second !== 0 && origin === 'arrival') origin = 'board seconds'
    if (timeMs > newestMs) newestMs = timeMs
    return timeMs
  })
  if (isPossible) return { timesMs, origin }
  const shiftMs = arrivedMs - newestMs
  const shifted = timesMs.map((timeMs) => timeMs + shiftMs)
  // spread over more than a survey lasts, such times say nothing about their order either
  const isOrdered = shifted.every((timeMs) => arrivedMs - timeMs <= OLDEST_MS)
  return { timesMs: isOrdered ? shifted : shifted.map(() => arrivedMs), origin: 'shifted to arrival' }
}
