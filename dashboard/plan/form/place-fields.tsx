import { Field } from '../../parts/field.tsx'
import type { FieldFaults } from './field-reader.ts'
import type { PlanForm } from './plan-form.ts'

type TextField = 'title' | 'siteName' | 'latitude' | 'longitude' | 'timeZone' | 'notes' | 'from' | 'to'

/** Title, site and days; what is seldom needed is folded away. */
export function PlaceFields(props: {
  form: PlanForm
  faults: FieldFaults
  onForm: (part: Partial<PlanForm>) => void
}) {
  const { form, faults, onForm } = props
  const line = (name: TextField, path: string) => ({
    value: form[name],
    wrong: faults[path],
    onValue: (value: string) => onForm({ [name]: value }),
  })
  const isFolded = ['site.latitude', 'site.longitude', 'site.timeZone', 'to'].every(
    (path) => faults[path] === undefined,
  )
  return (
    <fieldset>
      <legend>The place</legend>
      <div class="fields">
        <Field label="Title" {...line('title', 'title')} />
        <Field label="Site" {...line('siteName', 'site.name')} hint="No names of people." />
        <Field label="Date" kind="date" {...line('from', 'from')} width="12rem" />
      </div>
      <details class="plan-more" {...(isFolded ? {} : { open: true })}>
        <summary>Last day, position, time zone, notes</summary>
        <div class="fields">
          <Field label="Last day" kind="date" {...line('to', 'to')} width="12rem" hint="when it is another" />
          <Field
            label="Time zone"
            {...line('timeZone', 'site.timeZone')}
            hint="Times are shown as they were there."
          />
          <Field
            label="Latitude"
            kind="number"
            {...line('latitude', 'site.latitude')}
            width="9rem"
            hint="may stay empty"
          />
          <Field
            label="Longitude"
            kind="number"
            {...line('longitude', 'site.longitude')}
            width="9rem"
            hint="may stay empty"
          />
          <Field
            label="Notes on the site"
            {...line('notes', 'site.notes')}
            hint="Weather, access, permission. No names of people."
          />
        </div>
      </details>
    </fieldset>
  )
}
