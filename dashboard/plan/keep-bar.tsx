import { useEffect, useState } from 'preact/hooks'
import type { PlanChanges } from '../../hub/contract/plan-api.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { UndoButton } from '../bench/undo-button.tsx'
import { type Fault, messageOf, Refusal } from '../client.ts'
import { fetchSurvey, surveyKept } from '../notebook.ts'
import { Faults } from '../parts/faults.tsx'
import { planClient } from './plan-client.ts'
import { planText } from './plan-text.ts'
import type { PlanDraft } from './use-plan-draft.ts'
import { useWhenDrawn } from './use-when-drawn.ts'

/** What keeping the plan would change, the button that keeps it, and the way back. */
export function KeepBar(props: {
  /** as the hub keeps it now */
  survey: SurveyFile
  draft: PlanDraft
  changes: PlanChanges | null
  onTried: () => void
  /** the survey was changed: begin again from what is kept */
  onRenewed: () => void
}) {
  const { draft, changes, onRenewed } = props
  const survey = props.survey.id
  const [kept, setKept] = useState<string[] | null>(null)
  const [trouble, setTrouble] = useState<{ said: string; faults: Fault[] } | null>(null)
  const [isBusy, setBusy] = useState(false)
  const isWrong = Object.keys(draft.faults).length > 0 || draft.trouble !== ''
  const pending = isWrong ? 0 : (changes?.changes.length ?? 0)
  const keptNow = planText(props.survey)
  /** the plan that this draft began from, or was kept as */
  const [basis, setBasis] = useState({ text: keptNow, version: draft.version })
  const isOutOfDate = !isBusy && basis.text !== keptNow
  const isOvertaken = isOutOfDate && draft.version !== basis.version
  useEffect(() => {
    if (isOutOfDate && !isOvertaken) onRenewed()
  }, [isOutOfDate, isOvertaken])
  useEffect(() => {
    if (pending > 0) setTrouble(null)
  }, [pending])
  const keep = async () => {
    props.onTried()
    const plan = draft.keepable
    if (draft.trouble !== '') {
      draft.again()
      return
    }
    if (plan === null) {
      setTrouble({ said: 'Some lines need another look: each says what is wrong.', faults: [] })
      return
    }
    setBusy(true)
    setTrouble(null)
    try {
      const { changes: done } = await planClient.keep(survey, plan)
      setKept(done)
      await fetchSurvey(survey)
      const now = surveyKept(survey).peek()
      if (now !== null && typeof now === 'object') setBasis({ text: planText(now), version: draft.version })
    } catch (error) {
      setTrouble({ said: messageOf(error), faults: error instanceof Refusal ? error.faults : [] })
    }
    setBusy(false)
  }
  const isKept = kept !== null && pending === 0 && !isWrong
  const standing = () => {
    if (draft.trouble !== '') return 'Not saved: the hub does not answer. Press the button to ask again.'
    if (isWrong) return 'Not saved: something above needs another look.'
    if (pending > 0) return 'Nothing is saved yet.'
    return isKept ? 'Kept.' : 'As it is kept.'
  }
  const ask = useWhenDrawn(draft.isBusy, () => void keep())
  return (
    <div class={pending > 0 ? 'plan-keep is-pinned' : 'plan-keep'} data-pending={pending}>
      {pending > 0 && (
        <ul class="plan-changes" aria-label="What keeping this plan changes">
          {changes?.changes.map((change) => (
            <li key={change}>{change}</li>
          ))}
        </ul>
      )}
      {changes !== null && changes.faults.length > 0 && <Faults said="" faults={changes.faults} />}
      {trouble && <Faults {...trouble} />}
      {isOvertaken && (
        <p class="plan-overtaken" role="alert">
          Somebody else has kept another plan since you began. Keeping yours puts it in the place of theirs;
          what that changes is listed above.{' '}
          <button type="button" class="plain" id="take-theirs" onClick={onRenewed}>
            Go on from theirs; mine is dropped
          </button>
        </p>
      )}
      <p class="form-ways">
        <button
          type="button"
          id="keep-plan"
          disabled={isBusy || (pending === 0 && draft.keepable !== null)}
          onClick={ask}
        >
          {isOvertaken ? 'Keep mine instead' : 'Keep this plan'}
        </button>
        <span role="status" data-kept={isKept}>
          {standing()}
        </span>
        {isKept && (
          <UndoButton
            survey={survey}
            label="Take this back"
            onUndone={() => void fetchSurvey(survey).then(onRenewed)}
          />
        )}
      </p>
    </div>
  )
}
