import { useRef, useState } from 'preact/hooks'
import { unitText } from '../format.ts'
import { hubNowMs } from '../hub-clock.ts'
import { oneMethodText } from '../parts/method-text.ts'
import { quantityWords } from '../quantities.ts'
import type { AboutHold } from './about-hold.ts'
import { call, readyTone } from './attention.ts'
import { type Draft, draftKey, newDraft, typedCapture } from './capture.ts'
import { newCaptureId } from './capture-id.ts'
import { choicesOf } from './choices.ts'
import { drafts, finishDraft, keepDraft } from './on-this-phone.ts'
import { readTyped } from './typed-number.ts'
import { typedUnit } from './typed-unit.ts'

/** Values read off a meter without a connection. What stands in the fields survives a reload, too. */
export function TypePage(about: AboutHold) {
  const { survey, label, meter, replicates, group } = about
  const probe = meter.probes[0]!
  const unit = typedUnit(survey, probe)
  const [isTried, setTried] = useState(false)
  const [isSure, setSure] = useState(false)
  const [said, setSaid] = useState('')
  const fresh = useRef<Draft | null>(null)
  fresh.current ??= newDraft(
    { survey: survey.id, quadrat: label, meter: meter.id, markMs: 0 },
    [probe.id],
    newCaptureId,
  )
  const draft = drafts.value.get(draftKey(survey.id, label, meter.id)) ?? fresh.current
  const fields = Array.from(
    { length: replicates },
    (_, index) => draft.typed[index] ?? { text: '', at: null },
  )
  const read = fields.map(({ text }) => readTyped(text, probe.quantity, unit))
  const questions = read.filter((each) => each.is === 'number' && each.question !== null)
  const type = (index: number, text: string) => {
    setSure(false)
    const at = new Date().toISOString()
    void keepDraft({ ...draft, typed: fields.map((field, each) => (each === index ? { text, at } : field)) })
  }
  const keep = async () => {
    setTried(true)
    readyTone()
    const typed = read.flatMap((each, index) =>
      each.is === 'number' ? [{ value: each.value, at: fields[index]!.at ?? new Date().toISOString() }] : [],
    )
    if (typed.length === 0) setSaid('Type at least one value.')
    else if (read.some(({ is }) => is === 'unreadable')) setSaid('One of them is not a number.')
    else if (questions.length > 0 && !isSure) setSaid('Answer the question about the value first.')
    else {
      const facts = { probe: probe.id, quantity: probe.quantity, unit }
      const capture = typedCapture(draft, group, hubNowMs(), facts, typed)
      call('kept', choicesOf(survey.id).isMuted)
      await finishDraft(draft, [capture])
      about.onFinished([capture])
    }
  }
  const written = unit === 'pH' ? '' : unitText(unit)
  return (
    <section class="carry-type" aria-label={`Type in at ${label}`}>
      <h2>
        {quantityWords(probe.quantity).label}
        {written !== '' && `, ${written}`} <span class="carry-typed">typed in</span>
      </h2>
      <p class="carry-note">
        {probe.id}
        {oneMethodText(probe.method) && `: ${oneMethodText(probe.method)}`}. Put it in at {replicates} places,
        10 cm apart, and wait each time until it stands still.
      </p>
      {!survey.calibrations.some((each) => each.probe === probe.id && !each.withdrawn) && (
        <p class="held-warning">
          {probe.id} has no calibration yet, so its values do not count. Add it once more under the same name.
        </p>
      )}
      {fields.map((field, index) => {
        const id = `typed-${index}`
        const each = read[index]!
        const about =
          each.is === 'unreadable' && isTried ? each.why : each.is === 'number' ? each.question : null
        return (
          <div key={id} class="type-line">
            <label for={id}>Replicate {index + 1}</label>
            <input
              id={id}
              type="text"
              inputMode="decimal"
              autoComplete="off"
              value={field.text}
              aria-invalid={about !== null}
              aria-describedby={`${id}-about`}
              onInput={(event) => type(index, event.currentTarget.value)}
            />
            <small id={`${id}-about`} class="held-warning" hidden={about === null}>
              {about}
            </small>
          </div>
        )
      })}
      {questions.length > 0 && (
        <label class="carry-tick">
          <input
            type="checkbox"
            name="sure"
            checked={isSure}
            onChange={(event) => setSure(event.currentTarget.checked)}
          />
          <span>Yes, that is what the meter showed</span>
        </label>
      )}
      <div class="carry-bar">
        <p class="said" role="status">
          {said}
        </p>
        <button type="button" id="keep-typed" class="carry-main" onClick={() => void keep()}>
          Keep {read.filter(({ is }) => is === 'number').length || 'them'} at {label}
        </button>
      </div>
    </section>
  )
}
