const SECOND = 1000
const MINUTE = 60 * SECOND
const HOUR = 60 * MINUTE
const DAY = 24 * HOUR

/** A length of time, rough on purpose: `12 s`, `3 min`, `2 h 10 min`, `3 days`. */
export function spanText(ms: number): string {
  if (ms < MINUTE) return `${Math.max(0, Math.floor(ms / SECOND))} s`
  if (ms < HOUR) return `${Math.floor(ms / MINUTE)} min`
  if (ms < DAY) {
    const minutes = Math.floor((ms % HOUR) / MINUTE)
    return minutes === 0 ? `${Math.floor(ms / HOUR)} h` : `${Math.floor(ms / HOUR)} h ${minutes} min`
  }
  const days = Math.floor(ms / DAY)
  return days === 1 ? '1 day' : `${days} days`
}

/** How long ago, against the hub's clock. A moment that lies ahead by a little is “just now”. */
export function ageText(thenMs: number | null, nowMs: number): string {
  if (thenMs === null) return 'never'
  const ms = nowMs - thenMs
  if (ms < -5 * SECOND) return `${spanText(-ms)} ahead`
  return ms < 2 * SECOND ? 'just now' : `${spanText(ms)} ago`
}

const formats = new Map<string, Intl.DateTimeFormat>()

function formatFor(zone: string | undefined, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = JSON.stringify([zone, options])
  let format = formats.get(key)
  if (!format) {
    const timeZone = zone !== undefined && isZone(zone) ? { timeZone: zone } : {}
    format = new Intl.DateTimeFormat('en-GB', { ...options, ...timeZone, hourCycle: 'h23' })
    formats.set(key, format)
  }
  return format
}

export function isZone(zone: string): boolean {
  try {
    return new Intl.DateTimeFormat('en-GB', { timeZone: zone }) !== null
  } catch {
    return false
  }
}

/** `10:42:07` in the site's time zone, or the browser's when the site names none. */
export function clockText(ms: number, zone?: string): string {
  return formatFor(zone, { hour: '2-digit', minute: '2-digit', second: '2-digit' }).format(ms)
}

/** `10:42` */
export function minuteText(ms: number, zone?: string): string {
  return formatFor(zone, { hour: '2-digit', minute: '2-digit' }).format(ms)
}

/** `12 Jun` */
export function dayText(ms: number, zone?: string): string {
  return formatFor(zone, { day: 'numeric', month: 'short' }).format(ms)
}

/** `12 Jun 2026, 10:42:07` */
export function momentText(ms: number, zone?: string): string {
  const day = formatFor(zone, { day: 'numeric', month: 'short', year: 'numeric' }).format(ms)
  return `${day}, ${clockText(ms, zone)}`
}
