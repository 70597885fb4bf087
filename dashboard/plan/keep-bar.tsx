import { useEffect, useState } from 'preact/hooks'
import type { PlanChanges } from '../../hub/contract/plan-api.ts'
import { UndoButton } from '../bench/undo-button.tsx'
import { type Fault, messageOf, Refusal } from '../client.ts'
import { fetchSurvey } from '../notebook.ts'
import { Faults } from '../parts/faults.tsx'
import { planClient } from './plan-client.ts'
import type { PlanDraft } from './use-plan-draft.ts'
import { useWhenDrawn } from './use-when-drawn.ts'

/** What keeping the plan would change, the button that keeps it, and the way back. */
export function KeepBar(props: {
  survey: string
  draft: PlanDraft
  changes: PlanChanges | null
  onTried: () => void
  /** the survey was changed: begin again from what is kept */
  onRenewed: () => void
}) {
  const { survey, draft, changes } = props
  const [kept, setKept] = useState<string[] | null>(null)
  const [trouble, setTrouble] = useState<{ said: string; faults: Fault[] } | null>(null)
  const [isBusy, setBusy] = useState(false)
  const isWrong = Object.keys(draft.faults).length > 0 || draft.trouble !== ''
  const pending = isWrong ? 0 : (changes?.changes.length ?? 0)
  useEffect(() => {
    if (pending > 0) setTrouble(null)
  }, [pending])
  const keep = async () => {
    props.onTried()
    const plan = draft.keepable
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
    } catch (error) {
      setTrouble({ said: messageOf(error), faults: error instanceof Refusal ? error.faults : [] })
    }
    setBusy(false)
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
      <p class="form-ways">
        <button
          type="button"
          id="keep-plan"
          disabled={isBusy || (pending === 0 && draft.keepable !== null)}
          onClick={ask}
        >
          Keep this plan
        </button>
        <span role="status" data-kept={kept !== null && pending === 0 && !isWrong}>
          {isWrong
            ? 'Not saved: something above needs another look.'
            : pending > 0
              ? 'Nothing is saved yet.'
              : kept === null
                ? 'As it is kept.'
                : 'Kept.'}
        </span>
        {kept !== null && pending === 0 && !isWrong && (
          <UndoButton
            survey={survey}
            label="Take this back"
            onUndone={() => void fetchSurvey(survey).then(props.onRenewed)}
          />
        )}
      </p>
    </div>
  )
}
