import { useId, useState } from 'preact/hooks'
import type { ExpectationChoice } from './expectation-choices.ts'
import type { Expectation } from './expectations.ts'

/** Written before the result is seen: what is expected, and why. */
export function ExpectationForm(props: {
  choices: readonly ExpectationChoice[]
  onKeep: (expectation: Expectation) => void
}) {
  const group = useId()
  const [what, setWhat] = useState('')
  const [why, setWhy] = useState('')
  return (
    <form
      class="expectation"
      onSubmit={(event) => {
        event.preventDefault()
        if (what !== '') props.onKeep({ what, why: why.trim() })
      }}
    >
      <h3>What do you expect?</h3>
      <p>Write it down before you see the result. It stays on this device.</p>
      <fieldset class="expectation-choices">
        <legend class="unseen">What do you expect?</legend>
        {props.choices.map((choice) => (
          <label key={choice.what}>
            <input
              type="radio"
              name={group}
              value={choice.what}
              checked={what === choice.what}
              onChange={() => setWhat(choice.what)}
            />
            {choice.label}
          </label>
        ))}
      </fieldset>
      <label class="expectation-why">
        Because
        <textarea
          rows={2}
          maxLength={400}
          value={why}
          onInput={(event) => setWhy(event.currentTarget.value)}
        />
      </label>
      <button type="submit" disabled={what === ''}>
        Keep it, and show the result
      </button>
    </form>
  )
}
