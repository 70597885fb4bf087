import { useState } from 'preact/hooks'
import type { ChannelNow } from '../../hub/contract/reading.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { client, type Fault, messageOf, Refusal } from '../client.ts'
import { siteZone } from '../current-survey.ts'
import { hubNowMs } from '../hub-clock.ts'
import { judgeRecipe } from '../judge-recipe.ts'
import { refreshAll } from '../notebook.ts'
import { calibrationOf } from '../place-form.ts'
import { emptyFields, recipeKinds } from '../recipe-form.ts'
import { AskedFirst, questionOf } from './asked-first.tsx'
import { Faults } from './faults.tsx'
import { Choice } from './field.tsx'
import { type RecipeEntered, RecipeFields } from './recipe-fields.tsx'

/** Moves, lifts or calibrates a probe that is known already. */
export function ProbeChanges(props: {
  channel: ChannelNow
  probe: string
  survey: SurveyFile
  onDone: (said: string) => void
  onCancel: () => void
}) {
  const { channel, probe, survey, onDone, onCancel } = props
  const [quadrat, setQuadrat] = useState(channel.quadrat ?? survey.quadrats[0]?.label ?? '')
  const [recipe, setRecipe] = useState<RecipeEntered>({ kind: '', entered: {} })
  const [isTried, setTried] = useState(false)
  const [trouble, setTrouble] = useState<{ said: string; faults: Fault[] } | null>(null)
  const [asked, setAsked] = useState<{ question: string; onSure: () => void } | null>(null)
  const [isBusy, setBusy] = useState(false)
  /** Asked about first, it is done again as of the same moment once a person is sure. */
  const change = async (
    said: string,
    work: (now: string, sure: { isSure?: true }) => Promise<unknown>,
    sure: { isSure?: true } = {},
    now = new Date(hubNowMs()).toISOString(),
  ) => {
    setTrouble(null)
    setAsked(null)
    setBusy(true)
    try {
      await work(now, sure)
      onDone(said)
    } catch (error) {
      const question = questionOf(error, siteZone.value)
      if (question === null)
        setTrouble({ said: messageOf(error), faults: error instanceof Refusal ? error.faults : [] })
      else setAsked({ question, onSure: () => void change(said, work, { isSure: true }, now) })
    }
    refreshAll()
    setBusy(false)
  }
  const kind = recipeKinds.find((candidate) => candidate.kind === recipe.kind)
  const missing = kind ? emptyFields(kind, recipe.entered) : []
  const calibrate = async () => {
    setTried(true)
    if (!kind || missing.length > 0) return
    // a first calibration is taken to have held since the probe was put in place
    const isFirst = channel.calibration === null
    const placed = survey.placements.filter((each) => each.probe === probe).map((each) => each.from)
    const made = kind.recipe(recipe.entered, channel.signalUnit)
    const judged = await judgeRecipe(made)
    if (judged.refusal) {
      setTrouble({ said: judged.refusal, faults: [] })
      return
    }
    void change(`${probe}’s calibration ${judged.said}`, (now) =>
      client.calibrate(
        survey.id,
        calibrationOf(probe, survey, isFirst ? (placed.sort()[0] ?? now) : now, made),
      ),
    )
  }
  return (
    <div class="entry-form">
      <h4>Probe {probe}</h4>
      <div class="fields">
        <Choice
          label="Carry it to"
          value={quadrat}
          choices={survey.quadrats.map(({ label }) => ({ value: label, label }))}
          onValue={setQuadrat}
        />
        <p class="form-ways">
          <button
            type="button"
            disabled={isBusy || quadrat === channel.quadrat}
            onClick={() =>
              void change(`${probe} is at ${quadrat} from now on.`, (from, sure) =>
                client.place(survey.id, { probe, quadrat, from, ...sure }),
              )
            }
          >
            It is at {quadrat} now
          </button>
          {channel.quadrat !== null && (
            <button
              type="button"
              class="plain"
              disabled={isBusy}
              onClick={() =>
                void change(`${probe} is in transit: its readings belong to no quadrat.`, (from) =>
                  client.place(survey.id, { probe, quadrat: null, from }),
                )
              }
            >
              Lift it out
            </button>
          )}
        </p>
        <RecipeFields
          quantity={channel.quantity ?? ''}
          channel={channel}
          value={recipe}
          wrong={isTried ? missing : []}
          mayBeNone={false}
          onValue={setRecipe}
        />
        {recipe.kind !== '' && (
          <p class="form-ways">
            <button type="button" onClick={calibrate}>
              Use this calibration
            </button>
          </p>
        )}
      </div>
      {asked && <AskedFirst {...asked} isBusy={isBusy} onNo={() => setAsked(null)} />}
      {trouble && <Faults {...trouble} />}
      <p class="form-ways">
        <button type="button" class="plain" onClick={onCancel}>
          Done
        </button>
      </p>
    </div>
  )
}
