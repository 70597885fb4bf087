/** A day and a time to the second, by a clock on the wall. */
export function MomentInput(props: {
  name: string
  label: string
  value: string
  wrong: string | undefined
  hint?: string
  onValue: (value: string) => void
}) {
  const { name, label, value, wrong, hint, onValue } = props
  return (
    <div class={`field broad${wrong ? ' is-wrong' : ''}`}>
      <label for={name}>{label}</label>
      <input
        id={name}
        type="datetime-local"
        step="1"
        value={value}
        aria-invalid={wrong !== undefined}
        {...(wrong ? { 'aria-describedby': `${name}-wrong` } : {})}
        onInput={(event) => onValue(event.currentTarget.value)}
      />
      {hint && <small class="field-hint">{hint}</small>}
      {wrong && (
        <small class="field-wrong" id={`${name}-wrong`}>
          {wrong}
        </small>
      )}
    </div>
  )
}
