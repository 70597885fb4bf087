import { useState } from 'preact/hooks'
import { client, type Fault, messageOf, Refusal } from '../client.ts'
import { hubNowMs } from '../hub-clock.ts'
import { hub, refreshAll } from '../notebook.ts'
import { Faults } from '../parts/faults.tsx'
import { Field } from '../parts/field.tsx'
import { LoadSurveyFile } from '../parts/load-survey-file.tsx'
import { PlanDrawing } from '../parts/plan-drawing.tsx'
import { ZoneLines } from '../parts/zone-lines.tsx'
import { goTo, pathTo } from '../router.ts'
import { type SetUpFaults, setUpFaults } from '../set-up-faults.ts'
import { freshSetUp, type SetUpForm, surveyIdFor, surveyOf } from '../set-up-form.ts'

/** Sets up a survey: the place, the tape, the quadrats along it, drawn while it is typed. */
export function SetUpPage() {
  const [form, setForm] = useState<SetUpForm>(() =>
    freshSetUp(
      Intl.DateTimeFormat().resolvedOptions().timeZone,
      new Date(hubNowMs()).toISOString().slice(0, 10),
    ),
  )
  const [isTried, setTried] = useState(false)
  const [trouble, setTrouble] = useState<{ said: string; faults: Fault[] } | null>(null)
  const faults: SetUpFaults = isTried ? setUpFaults(form) : {}
  const line = (name: keyof SetUpForm & keyof SetUpFaults) => ({
    value: form[name],
    wrong: faults[name],
    onValue: (value: string) => setForm({ ...form, [name]: value }),
  })
  const save = async () => {
    setTried(true)
    setTrouble(null)
    if (Object.keys(setUpFaults(form)).length > 0) {
      setTrouble({ said: 'Some lines need another look: each says what is wrong.', faults: [] })
      return
    }
    const id = surveyIdFor(
      form.title,
      (hub.value?.surveys ?? []).map((survey) => survey.id),
    )
    try {
      await client.saveSurvey(id, surveyOf(form, id))
      refreshAll()
      goTo(pathTo.survey(id))
    } catch (error) {
      setTrouble({ said: messageOf(error), faults: error instanceof Refusal ? error.faults : [] })
    }
  }
  return (
    <form
      class="set-up plain-page"
      onSubmit={(event) => {
        event.preventDefault()
        void save()
      }}
    >
      <h1>Set up a survey</h1>
      <PlanDrawing form={form} />
      <fieldset>
        <legend>The place</legend>
        <div class="fields">
          <Field label="Title" {...line('title')} />
          <Field label="Site" {...line('siteName')} hint="No names of people." />
          <Field label="Date" kind="date" {...line('date')} width="12rem" />
          <Field label="Time zone" {...line('timeZone')} hint="Times are shown as they were there." />
          <Field label="Latitude" kind="number" {...line('latitude')} width="9rem" hint="may stay empty" />
          <Field label="Longitude" kind="number" {...line('longitude')} width="9rem" hint="may stay empty" />
        </div>
      </fieldset>
      <fieldset>
        <legend>The tape</legend>
        <div class="fields">
          <Field
            label="Length, m"
            kind="number"
            {...line('lengthMetres')}
            width="8rem"
            hint="zero at the shady end"
          />
          <Field label="Mark every, m" kind="number" {...line('spacing')} width="8rem" />
          <Field
            label="Bearing, °"
            kind="number"
            {...line('bearing')}
            width="8rem"
            hint="from zero, clockwise from north; may stay empty"
          />
        </div>
      </fieldset>
      <fieldset>
        <legend>Zones along it, if you can tell them apart</legend>
        <ZoneLines
          zones={form.zones}
          length={form.lengthMetres}
          faults={faults}
          onZones={(zones) => setForm({ ...form, zones })}
        />
      </fieldset>
      <fieldset>
        <legend>The quadrats</legend>
        <div class="either">
          {(['every', 'list'] as const).map((layout) => (
            <label key={layout}>
              <input
                type="radio"
                name="layout"
                checked={form.layout === layout}
                onChange={() => setForm({ ...form, layout })}
              />
              {layout === 'every' ? 'one every few metres' : 'at distances I write down'}
            </label>
          ))}
        </div>
        <div class="fields">
          {form.layout === 'every' ? (
            <>
              <Field label="First at, m" kind="number" {...line('firstAt')} width="8rem" />
              <Field label="Then every, m" kind="number" {...line('everyMetres')} width="8rem" />
            </>
          ) : (
            <Field label="Distances, m" {...line('distances')} hint="With spaces between, such as 1 3.5 6" />
          )}
          <Field label="Side, m" kind="number" {...line('side')} width="8rem" />
          <Field
            label="Grid divisions"
            kind="number"
            {...line('gridDivisions')}
            width="8rem"
            hint="10 a side: 100 squares"
          />
        </div>
      </fieldset>
      {trouble && <Faults {...trouble} />}
      <p class="form-ways">
        <button type="submit">Save this survey</button>
      </p>
      <LoadSurveyFile />
    </form>
  )
}
