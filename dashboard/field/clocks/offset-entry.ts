const WRITTEN = /^([+-]?)(?:(\d{1,4}):)?(\d{1,2}):(\d{1,2}(?:[.,]\d{1,3})?)$/

/**
 * An offset as `±h:min:s` or `±min:s`, such as `+1:00:00` or `-0:02.5`.
 * @returns seconds, later is positive; null when it is written otherwise or is nothing
 */
export function readOffset(text: string): number | null {
  const [, sign, hours = '0', minutes, seconds] = WRITTEN.exec(text.trim().replace('\u2212', '-')) ?? []
  if (minutes === undefined || seconds === undefined) return null
  const [min, sec] = [Number(minutes), Number(seconds.replace(',', '.'))]
  if (min > 59 || sec >= 60) return null
  const total = Number(hours) * 3600 + min * 60 + sec
  if (total === 0) return null
  return sign === '-' ? -total : total
}

/** What a clock that showed one time when it truly was another has to be moved by, seconds. */
export function offsetOfPair(showedMs: number, trulyMs: number): number {
  return (trulyMs - showedMs) / 1000
}

/** `+1:00:00`, with a true minus sign; parts of a second only where there are any. */
export function offsetText(seconds: number): string {
  const total = Math.round(Math.abs(seconds) * 1000) / 1000
  const whole = Math.floor(total)
  const part = Number((total - whole).toFixed(3))
  const two = (number: number) => String(number).padStart(2, '0')
  const tail = part === 0 ? '' : String(part).slice(1)
  return `${seconds < 0 ? '\u2212' : '+'}${Math.floor(whole / 3600)}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}${tail}`
}
