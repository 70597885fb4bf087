import { useState } from 'preact/hooks'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { choose } from './choices.ts'
import { type Meter, meterName, meterText } from './meters.ts'

/** Which meter goes with this phone; asked only where there are several. */
export function MeterChoice(props: { survey: SurveyFile; meters: readonly Meter[]; chosen: Meter | null }) {
  const { survey, meters, chosen } = props
  const [isOpen, setOpen] = useState(chosen === null)
  if (!isOpen && chosen !== null)
    return (
      <p class="carry-line" data-meter={chosen.id}>
        <span>
          Meter <b>{meterName(chosen)}</b> <small>{meterText(chosen)}</small>
        </span>
        {meters.length > 1 && (
          <button type="button" class="plain" aria-label="Change meter" onClick={() => setOpen(true)}>
            Change
          </button>
        )}
      </p>
    )
  return (
    <fieldset class="carry-choice">
      <legend>Which meter do you carry?</legend>
      <div class="carry-picks is-wide">
        {meters.map((meter) => (
          <button
            key={meter.id}
            type="button"
            class="plain"
            data-pick-meter={meter.id}
            aria-pressed={meter.id === chosen?.id}
            onClick={() => {
              choose(survey.id, { meter: meter.id })
              setOpen(false)
            }}
          >
            <b>{meterName(meter)}</b>
            <small>{meterText(meter)}</small>
          </button>
        ))}
      </div>
    </fieldset>
  )
}
