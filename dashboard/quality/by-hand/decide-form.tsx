import { useState } from 'preact/hooks'
import type { QuadratSeries, TimeSpan } from '../../../hub/contract/reading.ts'
import type { Decision, SurveyFile } from '../../../hub/contract/survey.ts'
import { rememberWho, whoBefore } from '../../bench/fit/who.ts'
import { client, type Fault, messageOf, Refusal } from '../../client.ts'
import { countText } from '../../format.ts'
import { refreshAll } from '../../notebook.ts'
import { Faults } from '../../parts/faults.tsx'
import { Field } from '../../parts/field.tsx'
import { ActionChoice } from './action-choice.tsx'
import { reasonsFor } from './reasons.ts'
import type { SpanCount } from './span-count.ts'
import { spanWarnings } from './span-warnings.ts'

/** Leave them out or accept the suspect ones, why, and which group says so. */
export function DecideForm(props: {
  survey: SurveyFile
  quadrat: string
  series: Pick<QuadratSeries, 'probe' | 'quantity'>
  span: TimeSpan
  count: SpanCount
  onDecided: (id: string) => void
  onLeave: () => void
}) {
  const { survey, span, count } = props
  const { probe, quantity } = props.series
  const [action, setAction] = useState<Decision['action']>('exclude')
  const [reason, setReason] = useState('')
  const [who, setWho] = useState(whoBefore)
  const [wrong, setWrong] = useState('')
  const [trouble, setTrouble] = useState<{ said: string; faults: Fault[] } | null>(null)
  const [isBusy, setBusy] = useState(false)
  // never turned into the other thing under the hand of who is about to press the button
  const isIdle = action === 'accept' && count.suspect === 0
  const decision = {
    probe,
    from: new Date(span.fromMs).toISOString(),
    to: new Date(span.toMs).toISOString(),
    action,
    reason: reason.trim(),
    ...(who.trim() === '' ? {} : { by: who.trim() }),
  }
  const decide = async () => {
    if (decision.reason.length < 3) {
      setWrong('Write what happened, in a few words.')
      return
    }
    setBusy(true)
    setTrouble(null)
    try {
      const { id } = await client.decide(survey.id, decision)
      rememberWho(who)
      refreshAll()
      props.onDecided(id)
    } catch (error) {
      setTrouble({ said: messageOf(error), faults: error instanceof Refusal ? error.faults : [] })
    }
    setBusy(false)
  }
  return (
    <form
      class="decide"
      onSubmit={(event) => {
        event.preventDefault()
        void decide()
      }}
    >
      {spanWarnings(survey, props.quadrat, decision).map((warning) => (
        <p key={warning} class="by-hand-warning">
          {warning}
        </p>
      ))}
      <ActionChoice action={action} count={count} onAction={setAction} />
      <div class="decide-words">
        <Field
          label="What happened?"
          value={reason}
          onValue={(text) => {
            setReason(text)
            setWrong('')
          }}
          {...(wrong === '' ? {} : { wrong })}
        />
        <div class="picks">
          {reasonsFor(action, quantity).map((suggestion) => (
            <button key={suggestion} type="button" class="plain pick" onClick={() => setReason(suggestion)}>
              {suggestion}
            </button>
          ))}
        </div>
        <p class="by-hand-rule">
          A reason is something that happened to the measuring. Never leave a reading out because its value
          spoils the pattern.
        </p>
        <Field
          label="Group"
          value={who}
          onValue={setWho}
          width="14rem"
          hint="such as G3, or initials; never a name"
        />
      </div>
      {trouble && <Faults {...trouble} />}
      <p class="form-ways">
        <button type="submit" data-decide={action} disabled={isBusy || isIdle}>
          {action === 'exclude'
            ? `Leave ${countText(count.all, 'reading')} out`
            : `Accept ${countText(count.suspect, 'suspect reading')}`}
        </button>
        <button type="button" class="plain" onClick={props.onLeave}>
          Not now
        </button>
      </p>
    </form>
  )
}
