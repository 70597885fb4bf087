import type { Decision } from '../../../hub/contract/survey.ts'
import { actionWords, spanWords } from '../decisions/decision-words.ts'
import { TakeBack } from '../decisions/take-back.tsx'

/** The decision about the readings looked at, with its reason and the way to take it back. */
export function DecisionNote(props: { survey: string; decision: Decision; zone: string | undefined }) {
  const { survey, decision, zone } = props
  return (
    <div class="decision-note" data-decision={decision.id}>
      <p>
        <b>By hand: {actionWords[decision.action]}.</b> {decision.reason}
        {decision.by ? `, by ${decision.by}` : ''};{' '}
        {spanWords(Date.parse(decision.from), Date.parse(decision.to), zone)}.
      </p>
      <TakeBack survey={survey} decision={decision.id} />
    </div>
  )
}
