import { Field } from '../../parts/field.tsx'
import type { FieldFaults } from './field-reader.ts'
import type { PlotForm } from './plan-form.ts'

/** One plot: a rectangle between two tapes at right angles. */
export function PlotFields(props: {
  plot: PlotForm
  index: number
  faults: FieldFaults
  onPlot: (plot: PlotForm) => void
  onLeaveOut: (() => void) | undefined
}) {
  const { plot, index, faults, onPlot, onLeaveOut } = props
  const line = (name: Exclude<keyof PlotForm, 'id'>) => ({
    value: plot[name],
    wrong: faults[`plots[${index}].${name}`],
    onValue: (value: string) => onPlot({ ...plot, [name]: value }),
  })
  return (
    <section class="plan-part" data-plot-form={plot.id} aria-label={`Plot ${plot.id}`}>
      <div class="plan-part-head">
        <h3>{plot.id}</h3>
        {onLeaveOut && (
          <button type="button" class="plain take" onClick={onLeaveOut}>
            Leave out {plot.id}
          </button>
        )}
      </div>
      <div class="fields">
        <Field label="Width, m" kind="number" {...line('widthMetres')} width="8rem" hint="along the x tape" />
        <Field
          label="Height, m"
          kind="number"
          {...line('heightMetres')}
          width="8rem"
          hint="along the y tape"
        />
        <Field
          label="Bearing, °"
          kind="number"
          {...line('bearingDegrees')}
          width="8rem"
          hint="of the y tape, clockwise from north; may stay empty"
        />
        <Field label="Name" {...line('name')} hint="such as “mown”; may stay empty" />
      </div>
    </section>
  )
}
