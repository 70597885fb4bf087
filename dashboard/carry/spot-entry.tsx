import { useState } from 'preact/hooks'
import type { SpotValue } from '../../hub/contract/spot.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { siteZone } from '../current-survey.ts'
import { countText, valueText } from '../format.ts'
import { minuteText } from '../format-time.ts'
import { quantityWords } from '../quantities.ts'
import { AmendSpotForm } from './amend-spot-form.tsx'
import { plusMinus } from './held-list.tsx'

/** One spot reading with its value, and the way to put it right. */
export function SpotEntry(props: { survey: SurveyFile; value: SpotValue; by: string | null }) {
  const { survey, value, by } = props
  const { spot, quantity, unit, mean, expanded, n, replicates, warnings } = value
  const [isOpen, setOpen] = useState(false)
  const left = replicates.filter(({ leftOut }) => leftOut !== null)
  const last = spot.amendments.at(-1)
  return (
    <li class={spot.isTakenBack ? 'is-taken-back' : ''} data-spot={spot.id} data-at={spot.quadrat}>
      <p>
        <b>{spot.quadrat}</b> {quantityWords(quantity).label}{' '}
        <b class="taken-value">
          {mean === null ? 'no value that counts' : valueText(quantity, unit, mean, expanded && expanded / 2)}
        </b>
        {mean !== null && expanded !== null && ` ${plusMinus(quantity, unit, expanded)}`}
        {spot.isTyped && <span class="carry-typed"> typed in</span>}
        {spot.isTakenBack && <b> · taken back</b>}
      </p>
      <p class="taken-about">
        {minuteText(Date.parse(spot.replicates[0]!.from), siteZone.value)}, {spot.probe}, {n} of{' '}
        {countText(replicates.length, 'replicate')} {n === 1 ? 'counts' : 'count'}
        {left.length > 0 &&
          !spot.isTakenBack &&
          ` (${[...new Set(left.map((each) => each.leftOut))].join(', ')})`}
        {spot.by !== undefined && `, by ${spot.by}`}
      </p>
      {warnings.map((warning) => (
        <p key={warning} class="held-warning">
          {warning}
        </p>
      ))}
      {last && <p class="taken-about">Changed: {last.reason}</p>}
      {isOpen ? (
        <AmendSpotForm survey={survey} value={value} by={by} onDone={() => setOpen(false)} />
      ) : (
        <button
          type="button"
          class="plain"
          aria-label={`Put ${spot.quadrat} right`}
          onClick={() => setOpen(true)}
        >
          {spot.isTakenBack ? 'Put it back …' : 'Put it right …'}
        </button>
      )}
    </li>
  )
}
