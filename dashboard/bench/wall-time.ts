import { isZone } from '../format-time.ts'

/** What a clock on the wall shows at a moment: `2026-06-12T09:30` in the zone, or the browser's own. */
export function wallTime(ms: number, zone?: string): string {
  const parts = new Intl.DateTimeFormat('en-GB', {
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
    ...(zone !== undefined && isZone(zone) ? { timeZone: zone } : {}),
  }).formatToParts(ms)
  const of = (type: string) => parts.find((part) => part.type === type)?.value ?? ''
  return `${of('year')}-${of('month')}-${of('day')}T${of('hour')}:${of('minute')}`
}

/** `2026-06-12` in the zone. */
export function dayAt(ms: number, zone?: string): string {
  return wallTime(ms, zone).slice(0, 10)
}

/** The moment a wall clock of the zone shows this; null when it is no time. In the doubled hour of autumn the first. */
export function momentOf(wall: string, zone?: string): number | null {
  if (!/^\d{4}-\d\d-\d\dT\d\d:\d\d$/.test(wall)) return null
  const asUtc = Date.parse(`${wall}Z`)
  if (Number.isNaN(asUtc)) return null
  const shown = (ms: number) => Date.parse(`${wallTime(ms, zone)}Z`)
  const guesses = [-14, -6, 0, 6, 14].map((hours) => {
    const near = asUtc + hours * 3_600_000
    return asUtc - (shown(near) - near)
  })
  const fitting = guesses.filter((guess) => shown(guess) === asUtc)
  // a time the clocks jump over in spring is shown by no clock: the offset before the jump stands
  return fitting.length > 0 ? Math.min(...fitting) : guesses[0]!
}
