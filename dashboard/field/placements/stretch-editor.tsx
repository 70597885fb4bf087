import { useState } from 'preact/hooks'
import type { Probe, SurveyFile } from '../../../hub/contract/survey.ts'
import { type Fault, messageOf, Refusal } from '../../client.ts'
import { refreshAll } from '../../notebook.ts'
import { AskedFirst, questionOf } from '../../parts/asked-first.tsx'
import { Faults } from '../../parts/faults.tsx'
import { Choice } from '../../parts/field.tsx'
import { wallSeconds } from '../../quality/by-hand/wall-seconds.ts'
import { actionWords, commonReasons } from './action-words.ts'
import { actionsFor, readStretchForm, type StretchChange, type StretchForm } from './change-stretch.ts'
import { MomentField } from './moment-field.tsx'
import { placementsClient } from './placements-client.ts'
import { ReasonField } from './reason-field.tsx'
import { stretchExactly, stretchWords } from './stretch-words.ts'
import type { Stretch } from './stretches.ts'
import { TimesFields } from './times-fields.tsx'

/** Puts one stretch of a probe right: where it was, from when, until when, and how that is known. */
export function StretchEditor(props: {
  survey: SurveyFile
  probe: Probe
  stretch: Stretch
  nowMs: number
  zone: string | undefined
  onDone: (said: string) => void
  onLeave: () => void
}) {
  const { survey, probe, stretch, nowMs, zone } = props
  const [form, setForm] = useState<StretchForm>(() => freshForm(stretch, survey, nowMs, zone))
  const [wrong, setWrong] = useState<Record<string, string | undefined>>({})
  const [trouble, setTrouble] = useState<{ said: string; faults: Fault[] } | null>(null)
  const [asked, setAsked] = useState<string | null>(null)
  const [isBusy, setBusy] = useState(false)
  const set = (part: Partial<StretchForm>) => {
    setForm((before) => ({ ...before, ...part }))
    setAsked(null)
    setWrong({})
  }
  const actions = actionsFor(stretch)
  const isMoment = form.action === 'rest' || form.action === 'first'
  const send = async (isSure: boolean) => {
    const read = readStretchForm(probe.id, stretch, form, zone)
    setTrouble(null)
    setAsked(null)
    setWrong('wrong' in read ? read.wrong : {})
    if ('wrong' in read) return
    setBusy(true)
    try {
      await store(survey.id, read.change, isSure)
      props.onDone(read.said)
    } catch (error) {
      const question = questionOf(error, zone)
      if (question !== null) setAsked(question)
      else setTrouble({ said: messageOf(error), faults: error instanceof Refusal ? error.faults : [] })
    }
    refreshAll()
    setBusy(false)
  }
  return (
    <form
      class="entry-form stretch-editor"
      onSubmit={(event) => {
        event.preventDefault()
        void send(false)
      }}
    >
      <h3>
        {probe.id} {stretchWords(stretch)}, {stretchExactly(stretch, zone)}
      </h3>
      {actions.length > 1 && (
        <fieldset class="stretch-actions">
          <legend>What was really so?</legend>
          {actions.map((action) => (
            <label key={action}>
              <input
                type="radio"
                name="stretch-action"
                value={action}
                checked={form.action === action}
                onChange={() => set({ action })}
              />
              {actionWords[action]}
            </label>
          ))}
        </fieldset>
      )}
      {isMoment && (
        <MomentField
          {...{ survey, probe, stretch, nowMs, zone }}
          at={form.at}
          wrong={wrong['at']}
          onAt={(at) => set({ at })}
        />
      )}
      {form.action === 'times' && <TimesFields form={form} wrong={wrong} onForm={set} />}
      {form.action !== 'times' && form.action !== 'remove' && (
        <div class={`stretch-where${wrong['quadrat'] ? ' is-wrong' : ''}`}>
          <Choice
            label={
              form.action === 'first'
                ? 'Before that it was at'
                : form.action === 'rest'
                  ? 'Then it was at'
                  : 'It was at'
            }
            value={form.quadrat}
            choices={[
              ...survey.quadrats.map(({ label }) => ({ value: label, label })),
              { value: '', label: 'no quadrat: in transit' },
            ]}
            onValue={(quadrat) => set({ quadrat })}
          />
          {wrong['quadrat'] && <small class="field-wrong">{wrong['quadrat']}</small>}
        </div>
      )}
      <ReasonField
        reason={form.reason}
        common={commonReasons}
        wrong={wrong['reason']}
        onReason={(reason) => set({ reason })}
      />
      {asked !== null && (
        <AskedFirst
          question={asked}
          isBusy={isBusy}
          onSure={() => void send(true)}
          onNo={() => setAsked(null)}
        />
      )}
      {trouble && <Faults {...trouble} />}
      <p class="form-ways">
        <button type="submit" data-correct disabled={isBusy || asked !== null}>
          Put it right
        </button>
        <button type="button" class="plain" onClick={props.onLeave}>
          Leave it as it is
        </button>
      </p>
    </form>
  )
}

function store(survey: string, change: StretchChange, isSure: boolean): Promise<unknown> {
  const sure = isSure ? { isSure: true } : {}
  return change.kind === 'place'
    ? placementsClient.place(survey, { ...change.placing, ...sure })
    : placementsClient.amend(survey, { ...change.wish, ...sure })
}

function freshForm(
  stretch: Stretch,
  survey: SurveyFile,
  nowMs: number,
  zone: string | undefined,
): StretchForm {
  const along = survey.walk ?? survey.quadrats.map(({ label }) => label)
  const here = along.indexOf(stretch.quadrat ?? '')
  const middleMs = (stretch.fromMs + (stretch.toMs ?? nowMs)) / 2
  return {
    action: 'rest',
    // where a class most likely went from there
    quadrat: along[here + 1] ?? along[here - 1] ?? '',
    at: wallSeconds(stretch.kind === 'none' ? stretch.fromMs : middleMs, zone),
    from: wallSeconds(stretch.fromMs, zone),
    to: stretch.toMs === null ? '' : wallSeconds(stretch.toMs, zone),
    reason: '',
  }
}
