import { useId, useState } from 'preact/hooks'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { choicesOf, choose } from './choices.ts'
import { isGroupLabel } from './group-label.ts'

/** Which group has this phone: one of the survey’s, or a label typed; never a name. Asked once. */
export function GroupChoice({ survey }: { survey: SurveyFile }) {
  const id = useId()
  const { group } = choicesOf(survey.id)
  const [isOpen, setOpen] = useState(group === null)
  const [typed, setTyped] = useState('')
  const [wrong, setWrong] = useState('')
  const labels = (survey.groups ?? []).map(({ label }) => label)
  const pick = (label: string | null) => {
    choose(survey.id, { group: label })
    setOpen(false)
    setWrong('')
  }
  if (!isOpen)
    return (
      <p class="carry-line" data-group={group ?? ''}>
        <span>
          Group <b>{group ?? 'not said'}</b>
        </span>
        <button type="button" class="plain" aria-label="Change group" onClick={() => setOpen(true)}>
          Change
        </button>
      </p>
    )
  const take = () => {
    const label = typed.trim()
    if (isGroupLabel(label)) pick(label)
    else setWrong('A label with a number, such as G3. Never a name.')
  }
  return (
    <fieldset class="carry-choice">
      <legend>Which group has this phone?</legend>
      <div class="carry-picks">
        {labels.map((label) => (
          <button key={label} type="button" class="plain" onClick={() => pick(label)}>
            {label}
          </button>
        ))}
        {labels.length === 0 && (
          <span class="carry-line">
            <label for={id}>Label</label>
            <input
              id={id}
              class="carry-label"
              autoComplete="off"
              maxLength={8}
              placeholder="G3"
              value={typed}
              aria-invalid={wrong !== ''}
              aria-describedby={`${id}-wrong`}
              onInput={(event) => setTyped(event.currentTarget.value)}
              onKeyDown={(event) => {
                if (event.key === 'Enter') take()
              }}
            />
            <button type="button" class="plain" onClick={take}>
              This is us
            </button>
          </span>
        )}
        <button type="button" class="plain lesser-pick" onClick={() => pick(null)}>
          Leave open
        </button>
      </div>
      <small class="field-wrong" id={`${id}-wrong`} hidden={wrong === ''}>
        {wrong}
      </small>
    </fieldset>
  )
}
