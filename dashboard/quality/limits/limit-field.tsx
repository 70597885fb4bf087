import { Choice, Field } from '../../parts/field.tsx'
import { DurationField } from './duration-field.tsx'
import type { LimitFault } from './fault-places.ts'
import { LimitGroup } from './limit-group.tsx'
import { choiceLabel, type Writing } from './limit-words.ts'
import { NamedSpans } from './named-spans.tsx'
import { type LimitSchema, shapeOf } from './schema.ts'
import { SpanField } from './span-field.tsx'
import { blankOf, type NamedSpan, type Written, type WrittenGroup, type WrittenSpan } from './written.ts'

interface Props {
  schema: LimitSchema
  label: string
  typed: Written
  writing: Writing
  unit: string
  path: string
  faults: readonly LimitFault[]
  onTyped: (typed: Written) => void
}

/** One limit to be typed, whatever its kind. */
export function LimitField(props: Props) {
  const { schema, label, typed, writing, unit, path, faults, onTyped } = props
  const wrong = faults.find((fault) => fault.path === path)?.message
  const shape = shapeOf(schema)
  const same = { label, wrong, unit: writing.unit }
  switch (shape.kind) {
    case 'number':
      return writing.isDuration ? (
        <DurationField
          {...same}
          typed={typed as { number: string; unit: 'min' }}
          onTyped={(next) => onTyped(next)}
        />
      ) : (
        <Field
          label={label}
          kind="number"
          width="8rem"
          value={typed as string}
          onValue={onTyped}
          wrong={wrong}
          after={writing.unit}
        />
      )
    case 'yes or no':
      return <Tick label={label} isOn={typed === true} onChange={onTyped} />
    case 'choice':
      return (
        <Choice
          label={label}
          value={typed as string}
          onValue={onTyped}
          choices={shape.choices.map((value) => ({ value, label: choiceLabel(value) }))}
        />
      )
    case 'span':
      return (
        <SpanField {...same} typed={typed as WrittenSpan} path={path} faults={faults} onTyped={onTyped} />
      )
    case 'spans by name':
      return (
        <NamedSpans
          {...same}
          hasFixedNames={shape.names !== null}
          typed={typed as readonly NamedSpan[]}
          path={path}
          faults={faults}
          onTyped={onTyped}
        />
      )
    case 'group':
      return (
        <fieldset class="limit-part">
          <legend>{label}</legend>
          <LimitGroup {...{ schema, unit, path, faults, onTyped }} typed={typed as WrittenGroup} />
        </fieldset>
      )
    case 'maybe':
      return (
        <div class="limit-part">
          <Tick
            label={`${label}: ${typed === null ? 'none' : 'on'}`}
            isOn={typed !== null}
            onChange={(isOn) => onTyped(isOn ? blankOf(shape.inner, unit, writing) : null)}
          />
          {typed !== null && shapeOf(shape.inner).kind === 'group' && (
            <LimitGroup
              {...{ unit, path, faults, onTyped }}
              schema={shape.inner}
              typed={typed as WrittenGroup}
            />
          )}
          {typed !== null && shapeOf(shape.inner).kind !== 'group' && (
            <LimitField {...props} schema={shape.inner} label="from, to" />
          )}
        </div>
      )
    case 'numbers':
      return (
        <Field
          label={label}
          value={typed as string}
          onValue={onTyped}
          wrong={wrong}
          hint="with spaces between"
          after={writing.unit}
        />
      )
    default:
      return <Field label={label} value={typed as string} onValue={onTyped} wrong={wrong} />
  }
}

function Tick(props: { label: string; isOn: boolean; onChange: (isOn: boolean) => void }) {
  return (
    <label class="limit-tick">
      <input
        type="checkbox"
        checked={props.isOn}
        onChange={(event) => props.onChange(event.currentTarget.checked)}
      />
      {props.label}
    </label>
  )
}
