import { type Procedure, proceduresFor } from '../../../calibration/index.ts'
import { BenchField } from '../hold/bench-field.tsx'
import type { Entry } from '../hold/entries.ts'

/** Which way to calibrate, what to do, what to mind, and what is typed once for all points. */
export function ProcedureChoice(props: {
  quantity: string
  procedure: Procedure
  onProcedure: (id: string) => void
  settings: Entry
  onSettings: (settings: Entry) => void
  /** the steps were followed on this device before */
  isKnown: boolean
}) {
  const { procedure, settings, onSettings } = props
  const all = proceduresFor(props.quantity)
  return (
    <section class="how">
      <div class="bench-field">
        <label for="procedure">Way to calibrate</label>
        <select
          id="procedure"
          name="procedure"
          value={procedure.id}
          onChange={(event) => props.onProcedure(event.currentTarget.value)}
        >
          {all.map(({ id, title }, index) => (
            <option key={id} value={id} selected={id === procedure.id}>
              {title}
              {index === 0 ? ' (usual)' : ''}
            </option>
          ))}
        </select>
        <small class="field-hint">gives {procedure.gives}</small>
      </div>
      <details class="bench-more" open={!props.isKnown}>
        <summary>What to do</summary>
        <ol class="steps">
          {procedure.steps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
        <ul class="cautions">
          {procedure.cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      </details>
      {procedure.settings.length > 0 && (
        <details class="bench-more" open={procedure.settings.some(needsTyping)}>
          <summary>About the probe and the board{settingsTold(procedure, settings)}</summary>
          <div class="bench-fields">
            {procedure.settings.map((field) => (
              <BenchField
                key={field.name}
                field={field}
                value={settings[field.name] ?? field.start ?? ''}
                onValue={(value) => onSettings({ ...settings, [field.name]: value })}
              />
            ))}
          </div>
        </details>
      )}
    </section>
  )
}

function needsTyping({ isRequired, start }: Procedure['settings'][number]): boolean {
  return isRequired && start === undefined
}

function settingsTold(procedure: Procedure, settings: Entry): string {
  const count = procedure.settings.filter(({ name, start }) => {
    const typed = (settings[name] ?? '').trim()
    return typed !== '' && typed !== start
  }).length
  return count === 0 ? '' : `: ${count} filled in`
}
