import { useState } from 'preact/hooks'
import type { Fitted, Recipe } from '../../../calibration/index.ts'
import type { AddCalibration } from '../../../hub/contract/changes.ts'
import type { QuadratMove } from '../../../hub/contract/readiness.ts'
import type { Probe, SurveyFile } from '../../../hub/contract/survey.ts'
import { client, type Fault, messageOf, Refusal } from '../../client.ts'
import { siteZone } from '../../current-survey.ts'
import { hubNowMs } from '../../hub-clock.ts'
import { refreshAll } from '../../notebook.ts'
import { Faults } from '../../parts/faults.tsx'
import { calibrationId } from '../calibration-id.ts'
import { inForceWords } from '../records/in-force-words.ts'
import { WhoField } from '../who-field.tsx'
import { isFormulaAlone } from './formula-alone.ts'
import { MovesTable } from './moves-table.tsx'
import { type ValidFrom, ValidFromChoice, validFromMs } from './valid-from.tsx'
import { rememberWho, whoBefore } from './who.ts'

/** What the calibration would change, who made it and from when it holds; then accept it, or keep a failed one on record. */
export function AcceptPanel(props: {
  survey: SurveyFile
  probe: Probe
  recipe: Recipe
  fitted: Fitted
  noteFor: (typed: string) => string
  onAccepted: (calibration: AddCalibration) => void
}) {
  const { survey, probe, recipe, fitted } = props
  const [who, setWho] = useState(whoBefore)
  const [note, setNote] = useState('')
  const [from, setFrom] = useState<ValidFrom>({ since: 'now' })
  const [moves, setMoves] = useState<QuadratMove[] | null>(null)
  const [trouble, setTrouble] = useState<{ said: string; faults: Fault[] } | null>(null)
  const [isBusy, setBusy] = useState(false)
  const isFailing = fitted.verdict === 'fail'
  const isAlone = !isFailing && isFormulaAlone(recipe)

  const made = (): AddCalibration | null => {
    const nowMs = hubNowMs()
    const fromMs = validFromMs(from, nowMs, siteZone.value)
    if (fromMs === null) return null
    const taken = survey.calibrations.map(({ id }) => id)
    const full = props.noteFor(note)
    return {
      id: calibrationId(probe.id, nowMs, taken, siteZone.value),
      probe: probe.id,
      validFrom: new Date(fromMs).toISOString(),
      ...(who.trim() === '' ? {} : { by: who.trim() }),
      ...(full === '' ? {} : { note: full }),
      recipe,
    }
  }
  const work = async (doing: (calibration: AddCalibration) => Promise<void>) => {
    const calibration = made()
    if (calibration === null) {
      setTrouble({ said: 'Say from when it holds: a day and time that have been.', faults: [] })
      return
    }
    setBusy(true)
    setTrouble(null)
    try {
      await doing(calibration)
    } catch (error) {
      setTrouble({ said: messageOf(error), faults: error instanceof Refusal ? error.faults : [] })
    }
    setBusy(false)
  }
  const preview = () =>
    work(async (add) => {
      setMoves((await client.previewCalibration(survey.id, { add })).moves)
    })
  const accept = () =>
    work(async (calibration) => {
      await client.calibrate(survey.id, calibration)
      rememberWho(who)
      refreshAll()
      props.onAccepted(calibration)
    })

  return (
    <section class="accept">
      <h2>{isFailing ? 'It may be kept on record, not in force' : 'Accept it'}</h2>
      {isFailing && (
        <p>A failed calibration never comes into force. {inForceWords(survey, probe.id, 'stays')}</p>
      )}
      {isAlone && (
        <p>
          No reference was measured: this is the published formula, or the maker’s figures, alone. If a
          calibration of this probe is in force, this one takes its place.
        </p>
      )}
      <div class="bench-fields">
        <WhoField id="accept-who" who={who} onWho={setWho} />
        <div class="bench-field">
          <label for="accept-note">Note</label>
          <input
            id="accept-note"
            name="note"
            maxLength={600}
            autoComplete="off"
            value={note}
            onInput={(event) => setNote(event.currentTarget.value)}
          />
        </div>
      </div>
      {!isFailing && (
        <ValidFromChoice
          from={from}
          onFrom={(next) => {
            setFrom(next)
            setMoves(null)
          }}
        />
      )}
      {!isFailing && moves && <MovesTable moves={moves} />}
      {trouble && <Faults {...trouble} />}
      <p class="accept-ways">
        {!isFailing && (
          <button
            type="button"
            class="plain"
            id="what-would-change"
            disabled={isBusy}
            onClick={() => void preview()}
          >
            What would change?
          </button>
        )}
        <button
          type="button"
          id={isFailing ? 'keep-on-record' : 'accept-calibration'}
          class={isFailing ? 'plain' : ''}
          disabled={isBusy}
          onClick={() => void accept()}
        >
          {isFailing
            ? 'Save on record only'
            : isAlone
              ? 'Accept the formula alone'
              : 'Accept this calibration'}
        </button>
      </p>
    </section>
  )
}
