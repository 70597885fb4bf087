import { siteZone } from '../current-survey.ts'
import { clockText } from '../format-time.ts'
import { hubMs, lastHeardMs } from '../hub-clock.ts'
import { connection } from '../live.ts'
import { hub } from '../notebook.ts'

const WORDS = { joining: 'joining', live: 'live', lost: 'no answer' }

/** The hub's clock in big digits, to be compared with phones; it stands still while the hub is not heard. */
export function HubClock() {
  const state = connection.value
  const ticking = hubMs.value
  const shown = state === 'lost' ? lastHeardMs() : ticking
  return (
    <div class={`clock ${state}`}>
      <time class="clock-digits">{hub.value ? clockText(shown, siteZone.value) : '--:--:--'}</time>
      <span class="connection" data-connection={state} role="status" aria-live="polite">
        <svg viewBox="0 0 16 16" width="14" height="14" aria-hidden="true">
          <path d={state === 'lost' ? 'M2 2l12 12M14 2L2 14' : 'M1 9h3l2-6 4 11 2-5h3'} />
        </svg>
        {WORDS[state]}
      </span>
    </div>
  )
}
