import { Field } from '../../parts/field.tsx'
import type { FieldFaults } from './field-reader.ts'
import type { TapeForm } from './plan-form.ts'
import { ZoneFields } from './zone-fields.tsx'

/** One tape: its length, marks and bearing, and what grows along it. */
export function TapeFields(props: {
  tape: TapeForm
  index: number
  faults: FieldFaults
  onTape: (tape: TapeForm) => void
  /** undefined: it cannot be left out */
  onLeaveOut: (() => void) | undefined
}) {
  const { tape, index, faults, onTape, onLeaveOut } = props
  const path = `transects[${index}]`
  const line = (name: Exclude<keyof TapeForm, 'zones' | 'id'>) => ({
    value: tape[name],
    wrong: faults[`${path}.${name}`],
    onValue: (value: string) => onTape({ ...tape, [name]: value }),
  })
  return (
    <section class="plan-part" data-tape-form={tape.id} aria-label={`Tape ${tape.id}`}>
      <div class="plan-part-head">
        <h3>{tape.id}</h3>
        {onLeaveOut && (
          <button type="button" class="plain take" onClick={onLeaveOut}>
            Leave out {tape.id}
          </button>
        )}
      </div>
      <div class="fields">
        <Field
          label="Length, m"
          kind="number"
          {...line('lengthMetres')}
          width="8rem"
          hint="zero at the shady end"
        />
        <Field label="Mark every, m" kind="number" {...line('markSpacingMetres')} width="8rem" />
        <Field
          label="Bearing, °"
          kind="number"
          {...line('bearingDegrees')}
          width="8rem"
          hint="from zero, clockwise from north; may stay empty"
        />
      </div>
      <details class="plan-more" {...(tape.zones.length > 0 ? { open: true } : {})}>
        <summary>Zones along it, and a name</summary>
        <ZoneFields
          zones={tape.zones}
          lengthMetres={tape.lengthMetres}
          path={`${path}.zones`}
          faults={faults}
          onZones={(zones) => onTape({ ...tape, zones })}
        />
        <Field label="Name" {...line('name')} hint="such as “north side”; may stay empty" />
      </details>
    </section>
  )
}
