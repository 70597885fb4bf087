import { useState } from 'preact/hooks'
import type { TrapNow } from '../../../hub/contract/trap.ts'
import { messageOf } from '../../client.ts'
import { siteZone } from '../../current-survey.ts'
import { dayText, minuteText, spanText } from '../../format-time.ts'
import { hubMs } from '../../hub-clock.ts'
import { fieldClient } from '../field-client.ts'
import { FieldMark } from '../field-marks.tsx'
import { TrapHistory } from './trap-history.tsx'
import { dueWords, stateNow } from './trap-words.ts'

/** One trap: its clock, what to do now, and what was done. */
export function TrapEntry(props: {
  survey: string
  trap: TrapNow
  by: string
  onSaid: (said: string) => void
}) {
  const { survey, trap, by, onSaid } = props
  const [note, setNote] = useState('')
  const [isBusy, setBusy] = useState(false)
  const nowMs = hubMs.value
  const zone = siteZone.value
  const state = stateNow(trap, nowMs)
  const { id, method, quadrat, setAt, checkWithinHours } = trap.trap
  const isOpen = state !== 'closed' && state !== 'not-set-yet'
  const act = async (work: () => Promise<string>) => {
    setBusy(true)
    try {
      onSaid(await work())
      setNote('')
    } catch (error) {
      onSaid(messageOf(error))
    }
    setBusy(false)
  }
  const look = (isClosed: boolean) =>
    act(async () => {
      const words = { ...(by === '' ? {} : { by }), ...(note.trim() === '' ? {} : { note: note.trim() }) }
      await fieldClient.checkTrap(survey, id, { isClosed, ...words })
      return `${method} at ${quadrat}: ${isClosed ? 'taken up' : 'looked at and set again'}.`
    })
  const undo = () => act(async () => `Taken back: ${(await fieldClient.undoTrap(survey, id)).undone}.`)
  return (
    <li class={`trap trap-${state}`} data-trap={id} data-state={state}>
      <div class="trap-head">
        <FieldMark
          state={state === 'overdue' ? 'fail' : state === 'due' ? 'look' : state === 'set' ? 'ok' : 'none'}
          size={30}
        />
        <div>
          <h3>
            {method} at {quadrat}
          </h3>
          <p class="trap-when">
            <b>{dueWords(trap, nowMs)}</b>
            {trap.dueMs !== null && (
              <span>
                {' '}
                (by {dayText(trap.dueMs, zone)}, {minuteText(trap.dueMs, zone)})
              </span>
            )}
          </p>
          {trap.weather !== null && <p class="trap-weather">{trap.weather}</p>}
          <p class="trap-facts">
            set {dayText(Date.parse(setAt), zone)}, {minuteText(Date.parse(setAt), zone)}; looked at every{' '}
            {checkWithinHours} h; out for {spanText(trap.exposedHours * 3_600_000)}
            {trap.holdsAnimals ? '; holds animals' : ''}
          </p>
        </div>
      </div>
      {isOpen && (
        <div class="trap-ways">
          <label>
            What was in it?
            <input
              maxLength={400}
              autoComplete="off"
              placeholder="nothing is worth writing down too"
              value={note}
              onInput={(event) => setNote(event.currentTarget.value)}
            />
          </label>
          <button type="button" disabled={isBusy} onClick={() => void look(false)}>
            Looked at, set again
          </button>
          <button type="button" class="plain" disabled={isBusy} onClick={() => void look(true)}>
            Taken up
          </button>
        </div>
      )}
      <TrapHistory trap={trap.trap} onUndo={() => void undo()} isBusy={isBusy} />
    </li>
  )
}
