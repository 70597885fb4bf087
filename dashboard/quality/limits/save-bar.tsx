import { useState } from 'preact/hooks'
import type { QualityTestListed } from '../../../hub/contract/quality.ts'
import type { QualitySettings, SurveyFile } from '../../../hub/contract/survey.ts'
import { type Fault, messageOf, Refusal } from '../../client.ts'
import { countText } from '../../format.ts'
import { refreshAll } from '../../notebook.ts'
import { quantityWords } from '../../quantities.ts'
import { faultPlace } from './fault-places.ts'
import { SaveProgress } from './save-progress.tsx'
import { beginSaving, finishSaving, type SavedQuality, type SaveStep } from './save-quality.ts'
import { SavedPanel } from './saved-panel.tsx'

/** One button for all that is changed; then how far the hub is, and what came of it. */
export function SaveBar(props: {
  survey: SurveyFile
  tests: readonly QualityTestListed[]
  settings: QualitySettings
  changed: readonly { test: string; quantity: string }[]
  typedFaults: readonly Fault[]
  said: readonly Fault[]
  onSaid: (faults: readonly Fault[]) => void
  onDiscard: () => void
}) {
  const { survey, settings, changed, typedFaults, said, onSaid, onDiscard } = props
  const [step, setStep] = useState<SaveStep | null>(null)
  const [saved, setSaved] = useState<SavedQuality | null>(null)
  const [trouble, setTrouble] = useState('')

  const save = async (next: QualitySettings) => {
    setSaved(null)
    setTrouble('')
    try {
      const begun = await beginSaving(survey.id, survey.quality ?? {}, next, setStep)
      refreshAll()
      onDiscard()
      try {
        setSaved(await finishSaving(survey.id, begun, setStep))
      } catch (error) {
        setTrouble(`The limits are saved. What they changed could not be counted: ${messageOf(error)}`)
      }
    } catch (error) {
      const faults = error instanceof Refusal ? error.faults : []
      onSaid(faults)
      setTrouble(faults.length > 0 ? '' : messageOf(error))
    }
    setStep(null)
  }
  const titleOf = (name: string) => props.tests.find((test) => test.name === name)?.title ?? name
  const isIdle = changed.length === 0 && step === null && !saved && trouble === '' && said.length === 0
  const elsewhere = said.filter((fault) => faultPlace(fault) === null)
  return (
    <div class={isIdle ? 'save-bar' : 'save-bar is-pinned'}>
      {step !== null && <SaveProgress step={step} />}
      {saved && step === null && (
        <SavedPanel saved={saved} onTakeBack={() => void save(saved.settingsBefore)} />
      )}
      {trouble !== '' && <p role="alert">{trouble}</p>}
      {said.length > 0 && (
        <p class="field-wrong" role="alert">
          {countText(said.length, 'place')} to correct above; nothing was saved.
          {elsewhere.map(({ path, message }) => ` ${path}: ${message}.`)}
        </p>
      )}
      <p class="save-ways">
        <span>
          {changed.length === 0
            ? 'Nothing is changed.'
            : `${countText(changed.length, 'change')}: ${changed
                .map(({ test, quantity }) => `${titleOf(test)} for ${quantityWords(quantity).label}`)
                .join(', ')}`}
        </span>
        <button
          type="button"
          id="save-quality"
          disabled={changed.length === 0 || step !== null}
          onClick={() => {
            if (typedFaults.length > 0) onSaid(typedFaults)
            else void save(settings)
          }}
        >
          Save and test all readings again
        </button>
        {changed.length > 0 && step === null && (
          <button type="button" class="plain" onClick={onDiscard}>
            Forget all changes
          </button>
        )}
      </p>
    </div>
  )
}
