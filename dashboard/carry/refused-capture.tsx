import { useId, useState } from 'preact/hooks'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import type { Capture } from './capture.ts'
import { openPhone } from './on-this-phone.ts'
import { captureText } from './unsent-strip.tsx'

/** A capture that the hub refused: the reason, another quadrat for it, or away with it after a question. */
export function RefusedCapture({ capture, survey }: { capture: Capture; survey: SurveyFile | null }) {
  const id = useId()
  const [quadrat, setQuadrat] = useState(capture.spot.quadrat)
  const [isAsking, setAsking] = useState(false)
  const isElsewhere = survey === null || survey.id !== capture.survey
  return (
    <section class="carry-strip is-trouble" aria-label="Refused by the hub">
      <p>
        <b>The hub did not take this:</b> {captureText(capture)}.
      </p>
      <p>
        <code>{capture.refusal?.code}</code> {capture.refusal?.message}
      </p>
      {isElsewhere ? (
        <p>It belongs to survey “{capture.survey}”.</p>
      ) : (
        <p class="carry-line">
          <label for={id}>It was at</label>
          <select id={id} value={quadrat} onChange={(event) => setQuadrat(event.currentTarget.value)}>
            {!survey.quadrats.some(({ label }) => label === quadrat) && (
              <option value={quadrat}>{quadrat} (not in the survey)</option>
            )}
            {survey.quadrats.map(({ label }) => (
              <option key={label} value={label} selected={label === quadrat}>
                {label}
              </option>
            ))}
          </select>
          <button
            type="button"
            onClick={() => void openPhone().then((outbox) => outbox.correct(capture.id, quadrat))}
          >
            Send it again
          </button>
        </p>
      )}
      {isAsking ? (
        <p class="carry-line" role="alert">
          <span>It is nowhere but on this phone. Throw it away?</span>
          <button type="button" onClick={() => void openPhone().then((outbox) => outbox.drop(capture.id))}>
            Throw it away
          </button>
          <button type="button" class="plain" onClick={() => setAsking(false)}>
            Keep it
          </button>
        </p>
      ) : (
        <button type="button" class="plain" onClick={() => setAsking(true)}>
          Throw it away …
        </button>
      )}
    </section>
  )
}
