import { useState } from 'preact/hooks'
import type { ChannelNow } from '../../hub/contract/reading.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { client, type Fault, messageOf, Refusal } from '../client.ts'
import { siteZone } from '../current-survey.ts'
import { placeText } from '../format.ts'
import { hubNowMs } from '../hub-clock.ts'
import { judgeRecipe } from '../judge-recipe.ts'
import { knownProbes, refreshAll } from '../notebook.ts'
import {
  calibrationOf,
  formForQuantity,
  freshPlaceForm,
  methodMissing,
  type PlaceForm,
  placementFrom,
  usualWays,
} from '../place-form.ts'
import { fieldQuantities } from '../quantities.ts'
import { emptyFields, recipeKinds } from '../recipe-form.ts'
import { AskedFirst, questionOf } from './asked-first.tsx'
import { Faults } from './faults.tsx'
import { Choice, Field } from './field.tsx'
import { type RecipeEntered, RecipeFields } from './recipe-fields.tsx'

const OTHER = { value: '', label: 'choose what it measures' }

/** Puts the probe on a channel at a quadrat: what it measures, how, where, since when, and its calibration. */
export function PlaceChannel(props: {
  channel: ChannelNow
  survey: SurveyFile
  onDone: (said: string) => void
  onCancel: () => void
}) {
  const { channel, survey, onDone, onCancel } = props
  const [form, setForm] = useState<PlaceForm>(() => freshPlaceForm(channel, survey, knownProbes()))
  const [recipe, setRecipe] = useState<RecipeEntered>({ kind: '', entered: {} })
  const [isTried, setTried] = useState(false)
  const [trouble, setTrouble] = useState<{ said: string; faults: Fault[] } | null>(null)
  const [asked, setAsked] = useState<string | null>(null)
  const [isBusy, setBusy] = useState(false)
  const change = (next: PlaceForm) => {
    setForm(next)
    setAsked(null)
  }
  const set = (part: Partial<PlaceForm>) => change({ ...form, ...part })

  const kind = recipeKinds.find((candidate) => candidate.kind === recipe.kind)
  const missing = [
    ...(form.quantity === '' ? ['quantity'] : []),
    ...(form.probe.trim() === '' ? ['probe'] : []),
    ...(['depth', 'height'] as const).filter((name) => Number.isNaN(Number(form[name]))),
    ...methodMissing(form),
    ...(kind ? emptyFields(kind, recipe.entered) : []),
  ]
  const wrong = isTried ? missing : []

  const send = async (sure: { isSure?: true } = {}) => {
    setTried(true)
    if (missing.length > 0) return
    setBusy(true)
    setTrouble(null)
    setAsked(null)
    let said = `${form.probe} is at ${form.quadrat}.`
    try {
      const placing = placementFrom(form, channel, hubNowMs())
      const made = kind?.recipe(recipe.entered, channel.signalUnit)
      // judged before anything is sent: a form that goes away takes what was typed with it
      const judged = made ? await judgeRecipe(made) : null
      if (judged?.refusal) throw new Error(judged.refusal)
      await client.place(survey.id, { ...placing, ...sure })
      if (made && judged) {
        await client.calibrate(survey.id, calibrationOf(form.probe.trim(), survey, placing.from, made))
        said += ` Its calibration ${judged.said}`
      }
      onDone(said)
      refreshAll()
    } catch (error) {
      const question = questionOf(error, siteZone.value)
      if (question === null)
        setTrouble({ said: messageOf(error), faults: error instanceof Refusal ? error.faults : [] })
      else setAsked(question)
    }
    setBusy(false)
  }

  return (
    <form
      class="entry-form"
      onSubmit={(event) => {
        event.preventDefault()
        void send()
      }}
    >
      <h4>
        Put “{channel.channel}” of {channel.board} in place
      </h4>
      <div class="fields">
        <Choice
          label="It measures"
          value={form.quantity}
          choices={[OTHER, ...fieldQuantities.map(({ name, label }) => ({ value: name, label }))]}
          onValue={(quantity) => {
            change({ ...form, ...formForQuantity(quantity, knownProbes()) })
            setRecipe({ kind: '', entered: {} })
          }}
          {...(wrong.includes('quantity') ? { hint: 'Say what it measures first.' } : {})}
        />
        <Choice
          label="At quadrat"
          value={form.quadrat}
          choices={survey.quadrats.map((quadrat) => ({
            value: quadrat.label,
            label: `${quadrat.label}, ${placeText(quadrat)}`,
          }))}
          onValue={(quadrat) => set({ quadrat })}
        />
        <Field
          label="Method"
          value={form.way}
          suggestions={usualWays[form.quantity]}
          onValue={(way) => set({ way })}
          hint="Unlike methods are never averaged together."
        />
        <Field
          label="Depth, cm"
          kind="number"
          width="7rem"
          value={form.depth}
          onValue={(depth) => set({ depth })}
          wrong={wrong.includes('depth') ? 'a number, or nothing' : undefined}
        />
        <Field
          label="Height, m"
          kind="number"
          width="7rem"
          value={form.height}
          onValue={(height) => set({ height })}
          wrong={wrong.includes('height') ? 'a number, or nothing' : undefined}
        />
        <Field
          label="Probe"
          width="9rem"
          value={form.probe}
          onValue={(probe) => set({ probe })}
          hint="Write the same on the probe."
          wrong={wrong.includes('probe') ? 'a name such as ph-1' : undefined}
        />
        <Choice
          label="It has been there"
          value={form.since}
          choices={[
            { value: 'first heard', label: 'since first heard: loses nothing' },
            { value: 'now', label: 'from now on' },
          ]}
          onValue={(since) => set({ since: since as PlaceForm['since'] })}
        />
        <RecipeFields
          quantity={form.quantity}
          channel={channel}
          value={recipe}
          wrong={wrong}
          mayBeNone
          onValue={setRecipe}
        />
      </div>
      {asked !== null && (
        <AskedFirst
          question={asked}
          isBusy={isBusy}
          onSure={() => void send({ isSure: true })}
          onNo={() => setAsked(null)}
        />
      )}
      {trouble && <Faults {...trouble} />}
      <p class="form-ways">
        <button type="submit" disabled={isBusy || asked !== null}>
          Put it at {form.quadrat}
        </button>
        <button type="button" class="plain" onClick={onCancel}>
          Leave it
        </button>
      </p>
    </form>
  )
}
