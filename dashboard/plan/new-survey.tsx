import { useMemo, useState } from 'preact/hooks'
import { client, type Fault, messageOf, Refusal } from '../client.ts'
import { hubNowMs } from '../hub-clock.ts'
import { hub, refreshAll } from '../notebook.ts'
import { Faults } from '../parts/faults.tsx'
import { LoadSurveyFile } from '../parts/load-survey-file.tsx'
import { goTo, pathTo } from '../router.ts'
import { freshPlan, layOut, type PlanForm } from './form/plan-form.ts'
import { newSurvey, surveyIdFor } from './form/survey-id.ts'
import { freshSeed } from './fresh-seed.ts'
import { PlanEditor } from './plan-editor.tsx'
import { usePlanDraft } from './use-plan-draft.ts'
import { useWhenDrawn } from './use-when-drawn.ts'
import '../style/plan.css'

const nothingLaid = { transects: [], plots: [], plan: [] }
const nothingMeasured: ReadonlySet<string> = new Set()

/** A survey begins as a plan: the place, one tape or plot, quadrats by a rule; more only when it is wanted. */
export function NewSurvey() {
  const start = useMemo(() => {
    const zone = Intl.DateTimeFormat().resolvedOptions().timeZone
    const today = new Date(hubNowMs()).toISOString().slice(0, 10)
    return { form: freshPlan(zone, today, freshSeed()), quadrats: [], walk: [] }
  }, [])
  const draft = usePlanDraft(start, nothingLaid)
  // once something was changed, another choice would throw it away: tapes and plots are then added one by one
  const [laid, setLaid] = useState(groundText(start.form))
  const isUntouched = groundText(draft.form) === laid
  const [isTried, setTried] = useState(false)
  const [trouble, setTrouble] = useState<{ said: string; faults: Fault[] } | null>(null)
  const ground = draft.form.plots.length > 0 && draft.form.transects.length === 0 ? 'plot' : 'tape'
  const keep = async () => {
    setTried(true)
    setTrouble(null)
    if (draft.keepable === null) {
      setTrouble({ said: 'Some lines need another look: each says what is wrong.', faults: [] })
      return
    }
    const taken = (hub.value?.surveys ?? []).map((survey) => survey.id)
    const id = surveyIdFor(draft.form.title, taken)
    try {
      await client.saveSurvey(id, newSurvey(draft.keepable, id))
      refreshAll()
      goTo(pathTo.survey(id))
    } catch (error) {
      setTrouble({ said: messageOf(error), faults: error instanceof Refusal ? error.faults : [] })
    }
  }
  const save = useWhenDrawn(draft.isBusy, () => void keep())
  return (
    <article class="plan-page set-up plain-page">
      <h1>Set up a survey</h1>
      {isUntouched && (
        <fieldset class="plan-choice">
          <legend>What is laid out?</legend>
          <div class="either">
            {(['tape', 'plot'] as const).map((each) => (
              <label key={each}>
                <input
                  type="radio"
                  name="ground"
                  checked={ground === each}
                  onChange={() => {
                    const laid = layOut(each, freshSeed())
                    setLaid(groundText(laid))
                    draft.change({ quadrats: [], walk: [], form: { ...draft.form, ...laid } })
                  }}
                />
                {each === 'tape' ? 'a tape, quadrats along it' : 'a plot, quadrats in it'}
              </label>
            ))}
          </div>
        </fieldset>
      )}
      <PlanEditor draft={draft} measured={nothingMeasured} isTried={isTried} isNew />
      <div class="plan-keep is-pinned">
        {trouble && <Faults {...trouble} />}
        <p class="form-ways">
          <button type="button" id="keep-plan" onClick={save}>
            Keep this plan
          </button>
          <span>Nothing is saved yet.</span>
        </p>
      </div>
      <LoadSurveyFile />
    </article>
  )
}

function groundText({ transects, plots, plan }: Pick<PlanForm, 'transects' | 'plots' | 'plan'>): string {
  return JSON.stringify([transects, plots, plan])
}
