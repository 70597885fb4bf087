import type { StudyStatistics } from '../../../hub/contract/study.ts'
import { shownFactor, unitText } from '../../format.ts'
import { joinedCellText } from '../join/cell-text.ts'
import { zoneChoices } from './expectation-choices.ts'
import { ExpectationForm } from './expectation-form.tsx'
import { aboutZones, keepExpectation } from './expectations.ts'

/** Each factor between the zones of the transect. */
export function ZonesSection(props: {
  survey: string
  zones: StudyStatistics['zones']
  isUnsaid: (about: string) => boolean
}) {
  const { survey, zones, isUnsaid } = props
  if (zones.length === 0)
    return (
      <p>
        The plan has no two zones with readings in both, so there are none to compare. Zones, such as shade
        and open, are drawn on the plan.
      </p>
    )
  return (
    <ul class="study-zones">
      {zones.map((zone) => (
        <li key={zone.factor}>
          <h3>
            {zone.factor} <small>{unitText(zone.unit)}</small>
          </h3>
          <ul class="zone-values">
            {zone.groups.map(({ zone: name, values }) => (
              <li key={name}>
                <b>{name}</b>{' '}
                {values.map((value) => joinedCellText(value * shownFactor(zone.unit))).join(' · ')}
              </li>
            ))}
          </ul>
          {zone.p !== null && isUnsaid(aboutZones(zone.factor)) ? (
            <details class="study-fold">
              <summary>Say what you expect, then see the test</summary>
              <ExpectationForm
                choices={zoneChoices}
                onKeep={(written) => keepExpectation(survey, aboutZones(zone.factor), written)}
              />
            </details>
          ) : (
            <p>{zone.text}</p>
          )}
        </li>
      ))}
    </ul>
  )
}
