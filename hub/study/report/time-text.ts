const formats = new Map<string, Intl.DateTimeFormat>()

function formatOf(zone: string, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = JSON.stringify([zone, options])
  let format = formats.get(key)
  if (!format) {
    format = new Intl.DateTimeFormat('en-GB', { ...options, timeZone: zone, hourCycle: 'h23' })
    formats.set(key, format)
  }
  return format
}

/** The zone of the site where it is a known one, otherwise UTC. */
export function zoneOrUtc(zone: string | undefined): string {
  if (zone === undefined) return 'UTC'
  try {
    return new Intl.DateTimeFormat('en-GB', { timeZone: zone }).resolvedOptions().timeZone
  } catch {
    return 'UTC'
  }
}

/** “12 June 2026” */
export function dayText(time: number | string, zone: string): string {
  const ms = typeof time === 'string' ? Date.parse(time) : time
  return formatOf(zone, { day: 'numeric', month: 'long', year: 'numeric' })
    .format(ms)
    .replaceAll(' ', '\u00a0')
}

/** “10:42” */
export function minuteText(time: number | string, zone: string): string {
  const ms = typeof time === 'string' ? Date.parse(time) : time
  return formatOf(zone, { hour: '2-digit', minute: '2-digit' }).format(ms)
}

/** “12 June 2026, 10:42” */
export function momentText(time: number | string, zone: string): string {
  return `${dayText(time, zone)}, ${minuteText(time, zone)}`
}

/** “12 June 2026, 10:42 to 11:30”; the day is said twice only when it differs. */
export function fromToText(from: string, to: string, zone: string): string {
  const isOneDay = dayText(from, zone) === dayText(to, zone)
  return `${momentText(from, zone)} to ${isOneDay ? minuteText(to, zone) : momentText(to, zone)}`
}

/** A length of time: “2 s”, “10 min”, “1.5 h”, “3 days”. */
export function lengthText(seconds: number): string {
  const amount = (value: number, unit: string) => `${Number(value.toPrecision(3))}\u00a0${unit}`
  if (seconds < 120) return amount(seconds, 's')
  if (seconds < 7200) return amount(seconds / 60, 'min')
  return seconds < 172_800 ? amount(seconds / 3600, 'h') : amount(seconds / 86_400, 'days')
}
