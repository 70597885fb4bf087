import { useCallback } from 'preact/hooks'
import type { WalkJudged } from '../../../hub/contract/plan-api.ts'
import { isOnTransect } from '../../../hub/contract/quadrat-place.ts'

import { numberText } from '../../format.ts'
import type { PlanDraft } from '../use-plan-draft.ts'
import { walkedText } from './metres-walked.ts'
import { WalkList } from './walk-list.tsx'
import { worthProposing } from './worth-proposing.ts'

/** The order of visiting: what it costs, whether it can be told from the gradient, and a better one. */
export function WalkAdvice({ draft }: { draft: PlanDraft }) {
  const { change } = draft
  const take = useCallback((labels: string[]) => change({ walk: labels }), [change])
  const walk = draft.drawn?.walk
  if (!walk || walk.planned.labels.length < 2) return null
  const proposed = worthProposing(walk)
  const hasTape = draft.quadrats.some(isOnTransect)
  return (
    <fieldset>
      <legend>Order of visiting</legend>
      <div class="plan-walk" data-walk={walk.planned.labels.join(' ')}>
        <p>
          <b>Now:</b> {walkedText(walk.planned.metres)} to walk{followsText(walk.planned, hasTape)}.
        </p>
        {walk.warnings.map((warning) => (
          <p key={warning} class="plan-warning" role="alert" data-walk-warning>
            {warning}
          </p>
        ))}
        {proposed && (
          <div class="plan-proposal" data-proposal={proposed.labels.join(' ')}>
            <p>
              <b>Proposed:</b> {proposed.words}. {walkedText(proposed.metres)} to walk
              {followsText(proposed, hasTape)}.
            </p>
            <p class="figures plan-order">{proposed.labels.join(' · ')}</p>
            <button type="button" id="take-proposal" onClick={() => take(proposed.labels)}>
              Take the proposed order
            </button>
          </div>
        )}
        {walk.others.length > 0 && (
          <details class="plan-more">
            <summary>Other orders to compare</summary>
            <ul class="plan-ways">
              {walk.others.map((other) => (
                <li key={other.words}>
                  <span>
                    {other.words}: {walkedText(other.metres)}
                    {followsText(other, hasTape)}
                  </span>
                  <button type="button" class="plain take" onClick={() => take(other.labels)}>
                    Take
                  </button>
                </li>
              ))}
            </ul>
          </details>
        )}
        <details class="plan-more">
          <summary>The order, quadrat by quadrat</summary>
          <WalkList labels={walk.planned.labels} onOrder={take} />
        </details>
      </div>
    </fieldset>
  )
}

/** In a plot no side is the gradient, so only a tape is compared with. */
function followsText(walk: WalkJudged, hasTape: boolean): string {
  return hasTape ? `, rank correlation with the tape ${numberText(walk.strongest, 2)}` : ''
}
