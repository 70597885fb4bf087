import { siteZone } from '../../current-survey.ts'
import { clockText, dayText, spanText } from '../../format-time.ts'
import { hubMs, hubNowMs } from '../../hub-clock.ts'
import { hub } from '../../notebook.ts'

/** A phone this far off is said; common practice, no source. */
const LOOK_MS = 5000

/** The hub's clock in big digits, and how far this device's own clock is from it. */
export function PhoneClock() {
  const nowMs = hubMs.value
  const zone = siteZone.value
  const aheadMs = Date.now() - hubNowMs()
  const isFast = (hub.value?.speed ?? 1) > 1
  return (
    <section class="phone-clock">
      <h2>The hub’s clock</h2>
      <p class="phone-clock-digits">
        <time>{clockText(nowMs, zone)}</time>
        <small>
          {dayText(nowMs, zone)}, {zone ?? 'this device’s time zone'}
        </small>
      </p>
      <p role="status">
        {isFast
          ? 'The clock of this rehearsal runs fast, so a phone cannot be compared with it.'
          : Math.abs(aheadMs) < LOOK_MS
            ? 'The clock of this device agrees with it. Compare it with a watch too.'
            : `The clock of this device is ${spanText(Math.abs(aheadMs))} ${aheadMs > 0 ? 'ahead' : 'behind'}. Find out which is wrong before you go: readings are stamped by the hub’s.`}
      </p>
    </section>
  )
}
