import { useId, useState } from 'preact/hooks'
import type { AmendSpot, SpotValue } from '../../hub/contract/spot.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { messageOf } from '../client.ts'
import { carryClient } from './carry-client.ts'

const REASONS = ['We stood at another quadrat', 'The probe was not in the soil', 'Measured twice by mistake']
const BACK_REASON = 'It was right after all'
const SHORTEST_REASON = 3

/** Moves a spot reading to another quadrat, takes it back, or puts it back; with a reason, and the record stays. */
export function AmendSpotForm(props: {
  survey: SurveyFile
  value: SpotValue
  by: string | null
  onDone: () => void
}) {
  const { survey, by, onDone } = props
  const { spot } = props.value
  const id = useId()
  const [quadrat, setQuadrat] = useState(spot.quadrat)
  const [reason, setReason] = useState(spot.isTakenBack ? BACK_REASON : '')
  const [said, setSaid] = useState('')
  const amend = async (change: Omit<AmendSpot, 'reason' | 'by'>) => {
    if (reason.trim().length < SHORTEST_REASON) {
      setSaid('Say why: choose a reason or write one.')
      return
    }
    try {
      await carryClient.amend(survey.id, spot.id, {
        ...change,
        reason: reason.trim(),
        ...(by === null ? {} : { by }),
      })
      onDone()
    } catch (error) {
      setSaid(messageOf(error))
    }
  }
  return (
    <div class="amend">
      {!spot.isTakenBack && (
        <div class="carry-picks">
          {REASONS.map((each) => (
            <button
              key={each}
              type="button"
              class="plain"
              aria-pressed={each === reason}
              onClick={() => setReason(each)}
            >
              {each}
            </button>
          ))}
        </div>
      )}
      <label for={`${id}-reason`}>Why (no names)</label>
      <input
        id={`${id}-reason`}
        name="reason"
        maxLength={400}
        autoComplete="off"
        value={reason}
        onInput={(event) => setReason(event.currentTarget.value)}
      />
      {spot.isTakenBack ? (
        <button type="button" data-amend="back" onClick={() => void amend({ isTakenBack: false })}>
          Let it count again
        </button>
      ) : (
        <>
          <p class="carry-line">
            <label for={`${id}-quadrat`}>It was at</label>
            <select
              id={`${id}-quadrat`}
              value={quadrat}
              onChange={(event) => setQuadrat(event.currentTarget.value)}
            >
              {survey.quadrats.map(({ label }) => (
                <option key={label} value={label} selected={label === quadrat}>
                  {label}
                </option>
              ))}
            </select>
            <button
              type="button"
              data-amend="move"
              disabled={quadrat === spot.quadrat}
              onClick={() => void amend({ quadrat })}
            >
              Move it there
            </button>
          </p>
          <button
            type="button"
            class="plain"
            data-amend="away"
            onClick={() => void amend({ isTakenBack: true })}
          >
            Take it back: it does not count
          </button>
        </>
      )}
      <button type="button" class="plain" onClick={onDone}>
        Leave it as it is
      </button>
      <p role="alert">{said}</p>
    </div>
  )
}
