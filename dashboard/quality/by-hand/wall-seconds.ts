import { momentOf, wallTime } from '../../bench/wall-time.ts'

/** `2026-06-12T09:30:05` as a clock on the wall of the zone shows it. */
export function wallSeconds(ms: number, zone?: string): string {
  return `${wallTime(ms, zone)}:${String(Math.floor(ms / 1000) % 60).padStart(2, '0')}`
}

/** The moment a wall clock shows this; without seconds the minute begins. Null when it is no time. */
export function momentOfSeconds(text: string, zone?: string): number | null {
  const [, minute, seconds = '0'] = /^(\d{4}-\d\d-\d\dT\d\d:\d\d)(?::(\d\d)(?:\.\d+)?)?$/.exec(text) ?? []
  const ms = minute === undefined ? null : momentOf(minute, zone)
  return ms === null || Number(seconds) > 59 ? null : ms + Number(seconds) * 1000
}
