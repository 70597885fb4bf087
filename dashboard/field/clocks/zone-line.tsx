import { dayText, minuteText } from '../../format-time.ts'
import { nextClockChange } from './next-change.ts'

/** Summer time in one line: what is stored does not know of it. */
export function ZoneLine({ zone, nowMs }: { zone: string | undefined; nowMs: number }) {
  const change = zone === undefined ? null : nextClockChange(zone, nowMs)
  return (
    <p class="zone-note">
      Times are stored in UTC;{' '}
      {zone === undefined ? 'this device’s zone (the site names none)' : `the site’s zone, ${zone},`} is only
      for showing, so putting clocks forward or back moves no reading.
      {change !== null && zone !== undefined && (
        <>
          {' '}
          Next: on {dayText(change.atMs, zone)} the clocks go {Math.abs(change.byMinutes)} min{' '}
          {change.byMinutes > 0 ? 'forward' : 'back'}, to {minuteText(change.atMs, zone)}.
        </>
      )}
      {change === null && zone !== undefined && ' Its clocks are not changed within the next year.'}
    </p>
  )
}
