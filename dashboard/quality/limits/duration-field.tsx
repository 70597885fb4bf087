import { useId } from 'preact/hooks'
import { type DurationUnit, durationUnits, type WrittenDuration } from './durations.ts'

/** A length of time: a number and its unit. */
export function DurationField(props: {
  label: string
  typed: WrittenDuration
  wrong: string | undefined
  onTyped: (typed: WrittenDuration) => void
}) {
  const { label, typed, wrong, onTyped } = props
  const id = useId()
  return (
    <div class={wrong === undefined ? 'field' : 'field is-wrong'}>
      <label for={id}>{label}</label>
      <span class="field-line duration">
        <input
          id={id}
          inputMode="decimal"
          autoComplete="off"
          value={typed.number}
          aria-invalid={wrong !== undefined}
          onInput={(event) => onTyped({ ...typed, number: event.currentTarget.value })}
        />
        <select
          aria-label={`${label}: unit`}
          value={typed.unit}
          onChange={(event) => onTyped({ ...typed, unit: event.currentTarget.value as DurationUnit })}
        >
          {durationUnits.map(({ name }) => (
            <option key={name} value={name} selected={name === typed.unit}>
              {name}
            </option>
          ))}
        </select>
      </span>
      {wrong !== undefined && <small class="field-wrong">{wrong}</small>}
    </div>
  )
}
