import type { SpotValue } from '../../hub/contract/spot.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { siteZone } from '../current-survey.ts'
import { hubNowMs } from '../hub-clock.ts'
import { sentFromHere } from './on-this-phone.ts'
import { SpotEntry } from './spot-entry.tsx'
import { takenToday } from './taken-today.ts'

/** What was taken today, as the hub has it; each can be moved to another quadrat or taken back. */
export function TakenList(props: {
  survey: SurveyFile
  spots: readonly SpotValue[] | null
  group: string | null
}) {
  const { survey, spots, group } = props
  const taken = takenToday(spots ?? [], group, sentFromHere(), hubNowMs(), siteZone.value)
  return (
    <details class="carry-more" id="taken-today">
      <summary>
        Taken today{group === null ? ' with this phone' : ` by ${group}`} ({taken.length})
      </summary>
      {taken.length === 0 && (
        <p>{spots === null ? 'The hub has not answered yet.' : 'Nothing yet. What is kept appears here.'}</p>
      )}
      <ul class="taken">
        {taken.map((value) => (
          <SpotEntry key={value.spot.id} survey={survey} value={value} by={group} />
        ))}
      </ul>
    </details>
  )
}
