import { useId } from 'preact/hooks'
import type { Decision } from '../../../hub/contract/survey.ts'
import { countText } from '../../format.ts'
import type { SpanCount } from './span-count.ts'

/** The two things a person can decide, and why the second sometimes cannot be. */
export function ActionChoice(props: {
  action: Decision['action']
  count: SpanCount
  onAction: (action: Decision['action']) => void
}) {
  const { action, count, onAction } = props
  const name = useId()
  const choice = (value: Decision['action'], label: string, isDisabled: boolean) => (
    <label class={isDisabled ? 'is-off' : ''}>
      <input
        type="radio"
        name={name}
        value={value}
        checked={action === value}
        disabled={isDisabled}
        onChange={() => onAction(value)}
      />
      {label}
    </label>
  )
  return (
    <fieldset class="action-choice">
      <legend class="unseen">What shall happen to them?</legend>
      <div class="either">
        {choice('exclude', 'Leave these out', false)}
        {choice('accept', 'Accept suspect ones', count.suspect === 0)}
      </div>
      {count.suspect === 0 && <p class="field-hint">None of them is suspect, so there is none to accept.</p>}
      {count.fail > 0 && (
        <p class="field-hint">
          {countText(count.fail, 'failed reading')} cannot be accepted: the probe did not measure then. Find
          the cause and put it right: calibrate anew, or correct where the probe stood.
        </p>
      )}
    </fieldset>
  )
}
