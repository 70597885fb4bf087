import type { StretchForm } from './change-stretch.ts'

/** When a placement begins and ends. */
export function TimesFields(props: {
  form: StretchForm
  wrong: Record<string, string | undefined>
  onForm: (part: Partial<StretchForm>) => void
}) {
  const { form, wrong, onForm } = props
  const fields = [
    { name: 'from', label: 'It came at', hint: '' },
    { name: 'to', label: 'It was taken away at', hint: 'empty: it is still there' },
  ] as const
  return (
    <div class="fields">
      {fields.map(({ name, label, hint }) => (
        <div key={name} class={`field broad${wrong[name] ? ' is-wrong' : ''}`}>
          <label for={`stretch-${name}`}>{label}</label>
          <input
            id={`stretch-${name}`}
            type="datetime-local"
            step="1"
            value={form[name]}
            aria-invalid={wrong[name] !== undefined}
            onInput={(event) => onForm({ [name]: event.currentTarget.value })}
          />
          {hint !== '' && <small class="field-hint">{hint}</small>}
          {wrong[name] && <small class="field-wrong">{wrong[name]}</small>}
        </div>
      ))}
    </div>
  )
}
