import type { ComponentChildren } from 'preact'
import { siteZone } from '../current-survey.ts'
import { TrapBanner } from '../field/traps/trap-banner.tsx'
import { clockText } from '../format-time.ts'
import { lastHeardMs } from '../hub-clock.ts'
import { connection } from '../live.ts'
import { hub } from '../notebook.ts'
import { changeTrouble, changingOver, endRehearsal } from '../rehearsal.ts'

/** What must be said on every page: no answer, trouble of the hub or its broker, a rehearsal. */
export function Banners() {
  const now = hub.value
  const isLost = connection.value === 'lost'
  return (
    <div class="banners">
      <TrapBanner />
      {changingOver.value !== null ? (
        <Slip kind="notice">
          <b>The hub is changing over {changingOver.value}.</b> This page opens it as soon as it is ready.
        </Slip>
      ) : (
        isLost && (
          <Slip kind="trouble" isUrgent>
            <b>
              {now
                ? `The hub does not answer since ${clockText(lastHeardMs(), siteZone.value)}.`
                : 'The hub does not answer.'}
            </b>{' '}
            {now ? 'What you see is from then. ' : ''}Check that this device is on the hub’s Wi-Fi and that
            the laptop is awake. The page tries again by itself.
          </Slip>
        )
      )}
      {changeTrouble.value !== null && (
        <Slip kind="trouble" isUrgent>
          {changeTrouble.value}
        </Slip>
      )}
      {now?.trouble && (
        <Slip kind="trouble" isUrgent>
          <b>The hub cannot store readings.</b> {now.trouble}
        </Slip>
      )}
      {now && (now.broker.state === 'gone' || now.broker.trouble) && (
        <Slip kind="trouble">
          <b>Boards without a cable cannot reach the hub.</b>{' '}
          {now.broker.trouble ?? 'Its MQTT broker is gone.'}
        </Slip>
      )}
      {now?.isRecomputing && (
        <Slip kind="notice">
          Values are being worked out again after a change; they settle by themselves.
        </Slip>
      )}
      {now?.isRehearsal && changingOver.value === null && (
        <Slip kind="rehearsal">
          <span>
            <b>Rehearsal.</b> A simulated class: nothing here was measured
            {now.speed > 1 ? `, and its clock runs ${now.speed} times as fast` : ''}.
          </span>
          <button type="button" class="plain" onClick={() => void endRehearsal()} disabled={isLost}>
            End the rehearsal
          </button>
        </Slip>
      )}
    </div>
  )
}

function Slip(props: {
  kind: 'trouble' | 'notice' | 'rehearsal'
  isUrgent?: boolean
  children: ComponentChildren
}) {
  return (
    <div class={`slip ${props.kind}`} role={props.isUrgent ? 'alert' : 'status'}>
      {props.children}
    </div>
  )
}
