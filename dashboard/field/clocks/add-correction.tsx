import { useState } from 'preact/hooks'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { rememberWho, whoBefore } from '../../bench/fit/who.ts'
import { dayAt } from '../../bench/wall-time.ts'
import { type Fault, messageOf, Refusal } from '../../client.ts'
import { hubNowMs } from '../../hub-clock.ts'
import { refreshAll } from '../../notebook.ts'
import { Faults } from '../../parts/faults.tsx'
import { Choice, Field } from '../../parts/field.tsx'
import { wallSeconds } from '../../quality/by-hand/wall-seconds.ts'
import { MomentInput } from '../placements/moment-input.tsx'
import { ReasonField } from '../placements/reason-field.tsx'
import { clocksClient } from './clocks-client.ts'
import { type CorrectionForm, offsetOf, readCorrectionForm } from './correction-form.ts'
import { offsetText } from './offset-entry.ts'

const REASONS = [
  'compared with the hub’s clock afterwards',
  'set to winter time by mistake',
  'its cell was empty',
  'the hub’s own clock was put right later',
] as const

/** A clock found wrong afterwards: which board, in which span, by how much, and how that is known. */
export function AddCorrection(props: {
  survey: SurveyFile
  boards: readonly string[]
  zone: string | undefined
  onSaid: (said: string) => void
}) {
  const { survey, boards, zone, onSaid } = props
  const [form, setForm] = useState<CorrectionForm>(() => freshForm(boards, zone))
  const [wrong, setWrong] = useState<Partial<Record<keyof CorrectionForm, string>>>({})
  const [trouble, setTrouble] = useState<{ said: string; faults: Fault[] } | null>(null)
  const [isBusy, setBusy] = useState(false)
  const set = (part: Partial<CorrectionForm>) => setForm((before) => ({ ...before, ...part }))
  const offset = offsetOf(form, zone)
  const send = async () => {
    const read = readCorrectionForm(form, zone)
    setTrouble(null)
    setWrong('wrong' in read ? read.wrong : {})
    if ('wrong' in read) return
    setBusy(true)
    try {
      await clocksClient.add(survey.id, read.correction)
      rememberWho(form.by)
      onSaid(
        `Readings of ${form.board} in that span are moved by ${offsetText(read.correction.offsetSeconds)}.`,
      )
      setForm(freshForm(boards, zone))
    } catch (error) {
      setTrouble({ said: messageOf(error), faults: error instanceof Refusal ? error.faults : [] })
    }
    refreshAll()
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
      <h3>A clock was wrong</h3>
      <div class="fields">
        <Choice
          label="Board"
          value={form.board}
          choices={boards.map((board) => ({ value: board, label: board }))}
          onValue={(board) => set({ board })}
        />
        <MomentInput
          name="correction-from"
          label="From, as it showed"
          value={form.from}
          wrong={wrong.from}
          onValue={(from) => set({ from })}
        />
        <MomentInput
          name="correction-to"
          label="To, as it showed"
          value={form.to}
          wrong={wrong.to}
          onValue={(to) => set({ to })}
        />
      </div>
      <fieldset class="stretch-actions">
        <legend>By how much?</legend>
        {(['offset', 'pair'] as const).map((way) => (
          <label key={way}>
            <input
              type="radio"
              name="correction-way"
              checked={form.way === way}
              onChange={() => set({ way })}
            />
            {way === 'offset' ? 'I know the difference' : 'I know what it showed at some moment'}
          </label>
        ))}
      </fieldset>
      <div class="fields">
        {form.way === 'offset' ? (
          <Field
            label="Move its readings by"
            value={form.offset}
            hint="± hours:minutes:seconds; + is later"
            wrong={wrong.offset}
            onValue={(text) => set({ offset: text })}
          />
        ) : (
          <>
            <MomentInput
              name="correction-showed"
              label="It showed"
              value={form.showed}
              wrong={undefined}
              onValue={(showed) => set({ showed })}
            />
            <MomentInput
              name="correction-truly"
              label="when it truly was"
              value={form.truly}
              wrong={wrong.truly}
              onValue={(truly) => set({ truly })}
            />
          </>
        )}
        <Field
          label="Known to"
          kind="number"
          width="6rem"
          value={form.errorSeconds}
          after={<span>seconds</span>}
          hint="empty: not known"
          wrong={wrong.errorSeconds}
          onValue={(errorSeconds) => set({ errorSeconds })}
        />
      </div>
      <p class="offset-said" aria-live="polite">
        {offset === null
          ? ''
          : `Its readings become ${offsetText(offset).slice(1)} ${offset > 0 ? 'later' : 'earlier'}.`}
      </p>
      <ReasonField
        reason={form.reason}
        common={REASONS}
        wrong={wrong.reason}
        onReason={(reason) => set({ reason })}
      />
      <Field
        label="Group"
        width="12rem"
        value={form.by}
        hint="a group label, never a name"
        onValue={(by) => set({ by })}
      />
      {trouble && <Faults {...trouble} />}
      <p class="form-ways">
        <button type="submit" id="add-correction" disabled={isBusy || boards.length === 0}>
          Put its times right
        </button>
      </p>
    </form>
  )
}

function freshForm(boards: readonly string[], zone: string | undefined): CorrectionForm {
  const nowMs = hubNowMs()
  return {
    board: boards[0] ?? '',
    from: `${dayAt(nowMs, zone)}T00:00:00`,
    to: wallSeconds(nowMs, zone),
    way: 'offset',
    offset: '',
    showed: wallSeconds(nowMs, zone),
    truly: wallSeconds(nowMs, zone),
    errorSeconds: '',
    reason: '',
    by: whoBefore(),
  }
}
