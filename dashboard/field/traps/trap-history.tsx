import type { Trap } from '../../../hub/contract/trap.ts'
import { siteZone } from '../../current-survey.ts'
import { dayText, minuteText } from '../../format-time.ts'

/** What was done to a trap, and the way to take the last step back. */
export function TrapHistory(props: { trap: Trap; onUndo: () => void; isBusy: boolean }) {
  const { trap } = props
  const zone = siteZone.value
  const when = (at: string) => `${dayText(Date.parse(at), zone)}, ${minuteText(Date.parse(at), zone)}`
  return (
    <details class="trap-history">
      <summary>
        {trap.checks.length === 0
          ? 'Not looked at yet'
          : `Looked at ${trap.checks.length === 1 ? 'once' : `${trap.checks.length} times`}`}
      </summary>
      <ol>
        <li>
          {when(trap.setAt)}: set{trap.by ? ` by ${trap.by}` : ''}
          {trap.note ? `. ${trap.note}` : ''}
        </li>
        {trap.checks.map((check, index) => (
          <li key={index}>
            {when(check.at)}: {check.isClosed ? 'taken up' : 'looked at, set again'}
            {check.by ? ` by ${check.by}` : ''}
            {check.note ? `. ${check.note}` : ''}
          </li>
        ))}
      </ol>
      <button type="button" class="plain take" disabled={props.isBusy} onClick={props.onUndo}>
        {trap.checks.length === 0 ? 'Take the setting back' : 'Take the last look back'}
      </button>
    </details>
  )
}
