import type { LeaveStop } from '../../../hub/contract/field.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { countText, metresText, placeText } from '../../format.ts'
import { pathTo } from '../../router.ts'
import { ThingLine } from './thing-line.tsx'

/** A quadrat to go to: how far, how long, who, and what is to be done there. */
export function LeaveStopEntry(props: { survey: SurveyFile; stop: LeaveStop; isNext: boolean }) {
  const { survey, stop, isNext } = props
  const quadrat = survey.quadrats.find(({ label }) => label === stop.quadrat)
  const isMeasuring = stop.things.some(({ kind }) => kind === 'measure')
  return (
    <li class={`leave-stop${isNext ? ' is-next' : ''}`} data-stop={stop.quadrat}>
      <div class="leave-stop-head">
        <b class="leave-label">{stop.quadrat}</b>
        <span>
          {isNext && (
            <strong class="leave-next">
              {stop.metres === null ? 'go here first' : 'nearest: go here first'}
            </strong>
          )}
          <small>
            {[
              stop.metres === null ? '' : `${metresText(stop.metres)} to walk`,
              quadrat ? placeText(quadrat) : '',
              `about ${countText(Math.max(1, Math.round(stop.minutes)), 'minute')}`,
              stop.groups.length > 0 ? stop.groups.join(', ') : '',
            ]
              .filter((text) => text !== '')
              .join(' · ')}
          </small>
        </span>
      </div>
      <ul class="leave-things">
        {stop.things.map((thing) => (
          <ThingLine
            key={`${thing.kind} ${thing.of} ${thing.quantity}`}
            survey={survey.id}
            thing={thing}
            quadrat={stop.quadrat}
          />
        ))}
      </ul>
      {isMeasuring && (
        <a class="button leave-go" href={pathTo.carry(survey.id, stop.quadrat)}>
          Measure at {stop.quadrat}
        </a>
      )}
    </li>
  )
}
