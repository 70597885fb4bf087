import { useState } from 'preact/hooks'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import type { TrapWeather } from '../../../hub/contract/trap.ts'
import { messageOf } from '../../client.ts'
import { siteZone } from '../../current-survey.ts'
import { hubNowMs } from '../../hub-clock.ts'
import { Choice, Field } from '../../parts/field.tsx'
import { fieldClient } from '../field-client.ts'
import { cautionsFor } from './trap-cautions.ts'
import { readTrapForm, standingMethods, type TrapForm, USUAL_WEATHER, usualHours } from './trap-form.ts'
import { weatherWords } from './weather-words.ts'

/** Where a trap is set: what it is, where, since when, how long it may stand, and what the animals need. */
export function SetTrap(props: {
  survey: SurveyFile
  weather: TrapWeather
  by: string
  onSaid: (said: string) => void
}) {
  const { survey, weather, by, onSaid } = props
  const [form, setForm] = useState<TrapForm>(() => freshForm(survey))
  const [wrong, setWrong] = useState<Partial<Record<keyof TrapForm, string>>>({})
  const [isBusy, setBusy] = useState(false)
  const zone = siteZone.value
  const set = (part: Partial<TrapForm>) => setForm((before) => ({ ...before, ...part }))
  const send = async () => {
    const read = readTrapForm(form, by, hubNowMs(), zone)
    if ('wrong' in read) {
      setWrong(read.wrong)
      return
    }
    setWrong({})
    setBusy(true)
    try {
      await fieldClient.setTrap(survey.id, read.trap)
      onSaid(
        `${read.trap.method} set at ${read.trap.quadrat}; look at it within ${read.trap.checkWithinHours} h.`,
      )
      set({ note: '', setAt: '' })
    } catch (error) {
      onSaid(messageOf(error))
    }
    setBusy(false)
  }
  return (
    <form
      class="entry-form set-trap"
      onSubmit={(event) => {
        event.preventDefault()
        void send()
      }}
    >
      <h2>Set a trap or funnel</h2>
      <div class="fields">
        <Field
          label="What it is"
          value={form.method}
          suggestions={standingMethods}
          hint="one of the list, or any words"
          wrong={wrong.method}
          onValue={(method) => set({ method, hours: String(usualHours(method)) })}
        />
        <Choice
          label="Where"
          value={form.quadrat}
          choices={survey.quadrats.map(({ label }) => ({ value: label, label }))}
          onValue={(quadrat) => set({ quadrat })}
        />
        <div class={`field broad${wrong.setAt ? ' is-wrong' : ''}`}>
          <label for="trap-set-at">Set at</label>
          <input
            id="trap-set-at"
            type="datetime-local"
            value={form.setAt}
            onInput={(event) => set({ setAt: event.currentTarget.value })}
          />
          <small class="field-hint">empty: now. Times are those of {zone ?? 'this device’s zone'}</small>
          {wrong.setAt && <small class="field-wrong">{wrong.setAt}</small>}
        </div>
        <Field
          label="Look at it within"
          kind="number"
          value={form.hours}
          after={<span>hours</span>}
          hint="your local rule goes before this"
          wrong={wrong.hours}
          width="6rem"
          onValue={(hours) => set({ hours })}
        />
        <Field
          label="Half of that below"
          kind="number"
          value={form.belowCelsius}
          after={<span>°C</span>}
          wrong={wrong.belowCelsius}
          width="6rem"
          onValue={(belowCelsius) => set({ belowCelsius })}
        />
        <Field
          label="…and above"
          kind="number"
          value={form.aboveCelsius}
          after={<span>°C</span>}
          wrong={wrong.aboveCelsius}
          width="6rem"
          onValue={(aboveCelsius) => set({ aboveCelsius })}
        />
        <Field label="Note" value={form.note} onValue={(note) => set({ note })} />
      </div>
      <p class="field-hint-line">{weatherWords(weather)}</p>
      <div class="trap-cautions">
        <h3>Before you set it</h3>
        <ul>
          {cautionsFor(form.method).map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      </div>
      <p class="form-ways">
        <button type="submit" id="set-trap" disabled={isBusy || survey.quadrats.length === 0}>
          It is set
        </button>
      </p>
    </form>
  )
}

function freshForm(survey: SurveyFile): TrapForm {
  const method = standingMethods[0]!
  return {
    method,
    quadrat: survey.quadrats[0]?.label ?? '',
    setAt: '',
    hours: String(usualHours(method)),
    ...USUAL_WEATHER,
    note: '',
  }
}
