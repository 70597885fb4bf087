import type { LimitFault } from './fault-places.ts'
import { nameLabel } from './limit-words.ts'
import { joined } from './read-written.ts'
import { SpanField } from './span-field.tsx'
import type { NamedSpan } from './written.ts'

/** Spans by a name: a line for each month, or one for each unit that a signal may come in. */
export function NamedSpans(props: {
  label: string
  unit: string
  hasFixedNames: boolean
  typed: readonly NamedSpan[]
  wrong: string | undefined
  path: string
  faults: readonly LimitFault[]
  onTyped: (typed: readonly NamedSpan[]) => void
}) {
  const { label, hasFixedNames, typed, path, faults, onTyped } = props
  const change = (index: number, next: Partial<NamedSpan>) =>
    onTyped(typed.map((each, at) => (at === index ? { ...each, ...next } : each)))
  return (
    <fieldset class="limit-part">
      <legend>{label}</legend>
      {hasFixedNames && <p class="field-hint">A month left blank is not looked at.</p>}
      <div class="named-spans">
        {typed.map((each, index) => (
          <div class="named-span" key={hasFixedNames ? each.name : index}>
            {!hasFixedNames && (
              <label class="field">
                unit of the signal
                <input
                  value={each.name}
                  placeholder="mV"
                  autoComplete="off"
                  onInput={(event) => change(index, { name: event.currentTarget.value })}
                />
              </label>
            )}
            <SpanField
              label={hasFixedNames ? nameLabel(each.name) : 'from, to'}
              unit={hasFixedNames ? props.unit : each.name}
              typed={each}
              wrong={undefined}
              path={joined(path, each.name)}
              faults={faults}
              onTyped={(span) => change(index, span)}
            />
            {!hasFixedNames && (
              <button
                type="button"
                class="plain small"
                onClick={() => onTyped(typed.filter((_, at) => at !== index))}
              >
                Take away
              </button>
            )}
          </div>
        ))}
      </div>
      {!hasFixedNames && (
        <button
          type="button"
          class="plain small"
          onClick={() => onTyped([...typed, { name: '', low: '', high: '' }])}
        >
          Add a unit
        </button>
      )}
      {props.wrong !== undefined && <small class="field-wrong">{props.wrong}</small>}
    </fieldset>
  )
}
