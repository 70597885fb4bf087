import { useState } from 'preact/hooks'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { UndoButton } from '../../bench/undo-button.tsx'
import { siteZone } from '../../current-survey.ts'
import { hubMs } from '../../hub-clock.ts'
import { pathTo } from '../../router.ts'
import { FieldHead } from '../field-head.tsx'
import { useAnswer } from '../use-answer.ts'
import { CompanionList } from './companion-list.tsx'
import { companionsOf } from './companions.ts'
import { placementsClient } from './placements-client.ts'
import { ProbeStrip } from './probe-strip.tsx'
import type { Stretch } from './stretches.ts'
import { type ViewName, viewNames, viewSpan } from './view-span.ts'
import './placements.css'

/** The strips grow by this much at a time, so that they do not shiver. */
const STEP_MS = 5000

/** Who stood where and when, each probe on a strip of time, and putting it right afterwards. */
export function PlacementsPage({ survey }: { survey: SurveyFile }) {
  const { answer, trouble } = useAnswer(survey.id, () => placementsClient.spots(survey.id))
  const [viewName, setViewName] = useState<ViewName>('today')
  const [chosen, setChosen] = useState<{ probe: string; stretch: Stretch } | null>(null)
  const [said, setSaid] = useState('')
  const [changes, setChanges] = useState(0)
  const zone = siteZone.value
  const nowMs = Math.ceil(hubMs.value / STEP_MS) * STEP_MS
  const spots = (answer?.spots ?? []).filter(({ spot }) => !spot.isTakenBack)
  const view = viewSpan(viewName, survey, spots, nowMs, zone)
  const say = (words: string) => {
    setSaid(words)
    setChanges((count) => count + 1)
  }
  const probes = survey.probes.filter(({ withdrawn }) => withdrawn === undefined)
  return (
    <article class="field-page placements-page">
      <FieldHead survey={survey.id} title="Placements" trouble={trouble}>
        <p>
          Nobody pressed “next”? Choose the stretch, say from when on it was where, and its readings follow.
          What the probes sent stays as it is.
        </p>
      </FieldHead>
      {survey.probes.length === 0 ? (
        <p>
          No probe is named yet. <a href={pathTo.boards}>Put one in place</a>
        </p>
      ) : (
        <>
          <fieldset class="spans">
            <legend>Show</legend>
            {viewNames.map((name) => (
              <button
                key={name}
                type="button"
                class={name === viewName ? 'plain chosen' : 'plain'}
                aria-pressed={name === viewName}
                onClick={() => {
                  setViewName(name)
                  setChosen(null)
                }}
              >
                {name}
              </button>
            ))}
          </fieldset>
          <p class="said" role="status" aria-live="polite">
            {said}
          </p>
          {changes > 0 && (
            <UndoButton
              key={changes}
              survey={survey.id}
              label="Take that back"
              onUndone={() => setSaid('')}
            />
          )}
          <CompanionList all={companionsOf(survey)} zone={zone} />
          {probes.map((probe) => (
            <ProbeStrip
              key={probe.id}
              {...{ survey, probe, view, nowMs, zone }}
              spots={spots
                .filter(({ spot }) => spot.probe === probe.id)
                .map(({ spot }) => ({ timeMs: Date.parse(spot.replicates[0]!.from), quadrat: spot.quadrat }))}
              chosen={chosen?.probe === probe.id ? chosen.stretch : null}
              onChoose={(stretch) => setChosen(stretch && { probe: probe.id, stretch })}
              onSaid={say}
            />
          ))}
        </>
      )}
    </article>
  )
}
