import type { FlagReason } from '../contract/flag.ts'
import type { TimeOrigin } from '../store/store.ts'

/** A reading whose board had an impossible clock was given its time of arrival: 3, because that is not when it was true. */
export function testClock(timeOrigin: TimeOrigin): FlagReason | null {
  return timeOrigin === 'shifted to arrival'
    ? { test: 'clock', flag: 3, text: 'the board’s clock was impossible; the time is that of arrival' }
    : null
}
