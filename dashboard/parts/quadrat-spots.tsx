import type { SpotValue } from '../../hub/contract/spot.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { placementsClient } from '../field/placements/placements-client.ts'
import { useAnswer } from '../field/use-answer.ts'
import { countText, expandedText, valueText } from '../format.ts'
import { momentText } from '../format-time.ts'
import { quantityWords } from '../quantities.ts'
import { pathTo } from '../router.ts'
import { oneMethodText } from './method-text.ts'
import './quadrat-spots.css'

/** What carried meters read at a quadrat, newest first, and the way to read another. */
export function QuadratSpots({ survey, quadrat }: { survey: SurveyFile; quadrat: string }) {
  const { answer, trouble } = useAnswer(survey.id, () => placementsClient.spots(survey.id, quadrat), [
    quadrat,
  ])
  const spots = answer?.spots ?? []
  return (
    <section class="quadrat-spots" data-spots={spots.length}>
      <header>
        <h2>Spot readings</h2>
        <a class="button" href={pathTo.carry(survey.id, quadrat)}>
          Carry a meter here
        </a>
      </header>
      {trouble && <p role="alert">{trouble}</p>}
      {answer !== null && spots.length === 0 && <p>No carried meter has been read here yet.</p>}
      <ul>
        {spots.map((value) => (
          <SpotLine key={value.spot.id} value={value} zone={survey.site.timeZone} />
        ))}
      </ul>
    </section>
  )
}

function SpotLine({ value, zone }: { value: SpotValue; zone: string | undefined }) {
  const { spot, quantity, unit, method, n, mean, range, expanded, replicates, warnings } = value
  const leftOut = replicates.filter((replicate) => replicate.leftOut !== null)
  const moved = spot.amendments.find((amendment) => amendment.quadrat !== undefined)
  const how = oneMethodText(method)
  const began = Date.parse(spot.replicates[0]!.from)
  return (
    <li class={spot.isTakenBack ? 'is-taken-back' : ''} data-spot={spot.id}>
      <p class="spot-value">
        {quantityWords(quantity).label}{' '}
        <b class="figures">
          {mean === null ? 'no value' : valueText(quantity, unit, mean, expanded && expanded / 2)}
        </b>
        {mean !== null && expanded !== null && (
          <span class="figures"> {expandedText(quantity, unit, expanded / 2)}</span>
        )}
        {spot.isTyped && <span class="tag spot-typed"> ✎ typed in</span>}
        {spot.isTakenBack && <span class="tag tag-fail"> ✕ taken back, does not count</span>}
      </p>
      <p class="spot-facts">
        {countText(n, 'replicate')}
        {range === null ? '' : `, range ${spread(quantity, unit, range)}`}; {spot.probe}
        {how === '' ? '' : `, ${how}`}; {spot.by ?? 'nobody named'}, {momentText(began, zone)}
        {moved && `; moved here: ${moved.reason}`}
        {spot.note && `; “${spot.note}”`}
      </p>
      {[...new Set(leftOut.map(({ leftOut: why }) => why))].map((why) => (
        <p key={why} class="spot-warning">
          {countText(leftOut.filter((each) => each.leftOut === why).length, 'replicate')} left out: {why}
        </p>
      ))}
      {warnings.map((warning) => (
        <p key={warning} class="spot-warning">
          {warning}
        </p>
      ))}
    </li>
  )
}

/** A difference, without the “pH” that would make it look like a value. */
function spread(quantity: string, unit: string, range: number): string {
  return valueText(quantity, unit === 'pH' ? '' : unit, range, null)
}
