import { wallTime } from '../../bench/wall-time.ts'
import { isZone } from '../../format-time.ts'

export interface ClockChange {
  /** the first minute by the new time, UTC ms */
  atMs: number
  /** by how much the clocks on the wall are moved, minutes: 60 forward, −60 back */
  byMinutes: number
}

const MINUTE_MS = 60_000
const DAY_MS = 86_400_000
/** Every zone that changes its clocks does so within a year. */
const LOOK_DAYS = 370

/** When a zone’s clocks are next put forward or back; null when they are not within a year, or there is no such zone. */
export function nextClockChange(zone: string, fromMs: number): ClockChange | null {
  if (!isZone(zone)) return null
  for (let day = 0; day < LOOK_DAYS; day++) {
    const beginMs = fromMs + day * DAY_MS
    const before = aheadMinutes(beginMs, zone)
    if (aheadMinutes(beginMs + DAY_MS, zone) === before) continue
    let low = Math.floor(beginMs / MINUTE_MS)
    let high = Math.ceil((beginMs + DAY_MS) / MINUTE_MS)
    while (high - low > 1) {
      const middle = Math.floor((low + high) / 2)
      if (aheadMinutes(middle * MINUTE_MS, zone) === before) low = middle
      else high = middle
    }
    const atMs = high * MINUTE_MS
    return { atMs, byMinutes: aheadMinutes(atMs, zone) - before }
  }
  return null
}

/** How far the zone is ahead of UTC, minutes. */
function aheadMinutes(ms: number, zone: string): number {
  const minute = Math.floor(ms / MINUTE_MS)
  return Date.parse(`${wallTime(minute * MINUTE_MS, zone)}Z`) / MINUTE_MS - minute
}
