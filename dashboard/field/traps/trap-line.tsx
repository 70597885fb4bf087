import type { TrapNow } from '../../../hub/contract/trap.ts'
import { siteZone } from '../../current-survey.ts'
import { dayText, minuteText } from '../../format-time.ts'
import { hubMs } from '../../hub-clock.ts'
import { pathTo } from '../../router.ts'
import { FieldMark } from '../field-marks.tsx'
import { dueWords, stateNow } from './trap-words.ts'

/** A trap in one line, on pages that are not about traps. */
export function TrapLine({ survey, trap }: { survey: string; trap: TrapNow }) {
  const nowMs = hubMs.value
  const state = stateNow(trap, nowMs)
  const zone = siteZone.value
  return (
    <li data-trap-line={trap.trap.id} data-state={state}>
      <FieldMark state={state === 'overdue' ? 'fail' : state === 'due' ? 'look' : 'ok'} />
      <span class="field-text">
        <b>
          {trap.trap.method} at {trap.trap.quadrat}
        </b>
        <small>
          {dueWords(trap, nowMs)}
          {trap.dueMs === null ? '' : `, by ${dayText(trap.dueMs, zone)}, ${minuteText(trap.dueMs, zone)}`}
        </small>
      </span>
      <a href={pathTo.chapter(survey, 'field', 'traps')}>Traps</a>
    </li>
  )
}
