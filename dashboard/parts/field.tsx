import type { ComponentChildren } from 'preact'
import { useId } from 'preact/hooks'

interface Props {
  label: string
  value: string
  onValue: (value: string) => void
  hint?: string
  /** what is wrong with it, in words */
  wrong?: string | undefined
  kind?: 'text' | 'number' | 'date'
  suggestions?: readonly string[] | undefined
  width?: string
  after?: ComponentChildren
}

/** A labelled line to write on, with its hint and what is wrong with it next to it. */
export function Field(props: Props) {
  const id = useId()
  const { label, value, onValue, hint, wrong, kind = 'text', suggestions, width, after } = props
  const notes = [hint ? `${id}-hint` : '', wrong ? `${id}-wrong` : ''].filter(Boolean).join(' ')
  return (
    <div class={`field${width ? '' : ' broad'}${wrong ? ' is-wrong' : ''}`}>
      <label for={id}>{label}</label>
      <span class="field-line">
        <input
          id={id}
          type={kind === 'date' ? 'date' : 'text'}
          inputMode={kind === 'number' ? 'decimal' : 'text'}
          autoComplete="off"
          value={value}
          onInput={(event) => onValue(event.currentTarget.value)}
          aria-invalid={wrong !== undefined}
          {...(notes ? { 'aria-describedby': notes } : {})}
          {...(suggestions ? { list: `${id}-list` } : {})}
          {...(width ? { style: { maxWidth: width } } : {})}
        />
        {after}
      </span>
      {suggestions && (
        <datalist id={`${id}-list`}>
          {suggestions.map((suggestion) => (
            <option key={suggestion} value={suggestion} />
          ))}
        </datalist>
      )}
      {hint && (
        <small class="field-hint" id={`${id}-hint`}>
          {hint}
        </small>
      )}
      {wrong && (
        <small class="field-wrong" id={`${id}-wrong`}>
          {wrong}
        </small>
      )}
    </div>
  )
}

export function Choice(props: {
  label: string
  value: string
  onValue: (value: string) => void
  choices: readonly { value: string; label: string }[]
  hint?: string
}) {
  const id = useId()
  return (
    <div class="field broad">
      <label for={id}>{props.label}</label>
      <select id={id} value={props.value} onChange={(event) => props.onValue(event.currentTarget.value)}>
        {props.choices.map(({ value, label }) => (
          <option key={value} value={value} selected={value === props.value}>
            {label}
          </option>
        ))}
      </select>
      {props.hint && <small class="field-hint">{props.hint}</small>}
    </div>
  )
}
