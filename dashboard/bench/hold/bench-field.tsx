import { useId } from 'preact/hooks'
import type { Field } from '../../../calibration/index.ts'

/** One thing to type or choose, large enough for a glove. Its `name` is the field’s own. */
export function BenchField(props: {
  field: Field
  value: string
  onValue: (value: string) => void
  suggestions?: readonly { value: string; label: string }[]
  note?: string | undefined
  wrong?: string | undefined
  warning?: string | undefined
}) {
  const { field, value, onValue, suggestions = [], note, wrong, warning } = props
  const id = useId()
  const isFew = field.kind === 'choice' && (field.choices?.length ?? 0) <= 3
  const noted = note ?? field.hint
  const label = field.unit === '' ? field.label : `${field.label}, ${field.unit}`
  const about = {
    ...(noted || wrong || warning ? { 'aria-describedby': `${id}-about` } : {}),
    ...(wrong ? { 'aria-invalid': true as const } : {}),
  }
  return (
    <div class={`bench-field${wrong ? ' is-wrong' : ''}${isFew ? ' is-few' : ''}`}>
      {isFew ? (
        <fieldset class="bench-few" {...about}>
          <legend>{label}</legend>
          {field.choices?.map((choice) => (
            <label key={choice.value} class="bench-tile">
              <input
                type="radio"
                name={field.name}
                value={choice.value}
                checked={choice.value === value}
                onChange={() => onValue(choice.value)}
              />
              <span>{choice.label}</span>
            </label>
          ))}
        </fieldset>
      ) : (
        <>
          <label for={id}>{label}</label>
          <span class={suggestions.length > 0 ? 'bench-line has-picks' : 'bench-line'}>
            {suggestions.length > 0 && (
              <span class="bench-picks">
                {suggestions.map((each) => (
                  <button
                    key={each.value}
                    type="button"
                    class="bench-pick"
                    aria-pressed={each.value === value}
                    onClick={() => onValue(each.value)}
                  >
                    {each.label}
                  </button>
                ))}
              </span>
            )}
            {field.kind === 'choice' ? (
              <select
                id={id}
                name={field.name}
                value={value}
                onChange={(event) => onValue(event.currentTarget.value)}
                {...about}
              >
                {value === '' && <option value="">choose</option>}
                {field.choices?.map((choice) => (
                  <option key={choice.value} value={choice.value} selected={choice.value === value}>
                    {choice.label}
                  </option>
                ))}
              </select>
            ) : (
              <input
                id={id}
                name={field.name}
                {...(field.kind === 'date' ? { type: 'date' as const } : { type: 'text' as const })}
                inputMode={field.kind === 'number' ? 'decimal' : 'text'}
                autoComplete="off"
                value={value}
                onInput={(event) => onValue(event.currentTarget.value)}
                {...about}
              />
            )}
          </span>
        </>
      )}
      {(noted || wrong || warning) && (
        <small id={`${id}-about`}>
          {noted && <span class="field-hint">{noted} </span>}
          {warning && <span class="bench-field-warning">{warning} </span>}
          {wrong && <span class="field-wrong">{wrong}</span>}
        </small>
      )}
    </div>
  )
}
