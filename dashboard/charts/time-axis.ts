import { clockText, dayText, minuteText } from '../format-time.ts'

/** Clock times under a chart in the site's zone, as fine as the marks are apart; the day once it changes. */
export function timeLabels(seconds: readonly number[], zone: string | undefined): string[] {
  const apart = (seconds[1] ?? Number.POSITIVE_INFINITY) - (seconds[0] ?? 0)
  let day = ''
  return seconds.map((second) => {
    const ms = second * 1000
    if (apart >= 86_400) return dayText(ms, zone)
    const time = apart < 60 ? clockText(ms, zone) : minuteText(ms, zone)
    const itsDay = dayText(ms, zone)
    const isNewDay = day !== '' && itsDay !== day
    day = itsDay
    return isNewDay ? `${itsDay} ${time}` : time
  })
}
