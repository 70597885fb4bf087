import { zoneOrUtc } from '../report/time-text.ts'

/** All time zones keep to whole quarters of an hour from UTC, so a quarter of an hour lies within one local day. */
const QUARTER_MS = 900_000

/** Which day it is at the site, `2026-06-12`, for many moments quickly. */
export function localDayOf(timeZone: string | undefined): (timeMs: number) => string {
  // Swedish writes dates as ISO 8601 does
  const format = new Intl.DateTimeFormat('sv-SE', {
    timeZone: zoneOrUtc(timeZone),
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
  })
  const known = new Map<number, string>()
  return (timeMs) => {
    const quarter = Math.floor(timeMs / QUARTER_MS)
    let day = known.get(quarter)
    if (day === undefined) {
      day = format.format(quarter * QUARTER_MS)
      known.set(quarter, day)
    }
    return day
  }
}
