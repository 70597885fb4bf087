import type { StretchForm } from './change-stretch.ts'
import { MomentInput } from './moment-input.tsx'

/** When a placement begins and ends. */
export function TimesFields(props: {
  form: StretchForm
  wrong: Record<string, string | undefined>
  onForm: (part: Partial<StretchForm>) => void
}) {
  const { form, wrong, onForm } = props
  return (
    <div class="fields">
      <MomentInput
        name="stretch-from"
        label="It came at"
        value={form.from}
        wrong={wrong['from']}
        onValue={(from) => onForm({ from })}
      />
      <MomentInput
        name="stretch-to"
        label="It was taken away at"
        hint="empty: it is still there"
        value={form.to}
        wrong={wrong['to']}
        onValue={(to) => onForm({ to })}
      />
    </div>
  )
}
