import { useState } from 'preact/hooks'
import type { Leave } from '../../../hub/contract/field.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { fieldClient } from '../field-client.ts'
import { FieldHead } from '../field-head.tsx'
import { SilentList } from '../silent-list.tsx'
import { TrapLine } from '../traps/trap-line.tsx'
import { useAnswer } from '../use-answer.ts'
import { Decision } from './decision.tsx'
import { LeaveStopEntry } from './leave-stop.tsx'
import { ThingLine } from './thing-line.tsx'
import { WhereWeAre } from './where-we-are.tsx'

/** One screen that decides whether the class may go: what is missing first, the nearest first. */
export function LeavePage({ survey }: { survey: SurveyFile }) {
  const [at, setAt] = useState('')
  const { answer, trouble } = useAnswer(survey.id, () => fieldClient.leave(survey.id, at), [at])
  return (
    <article class="field-page leave-page">
      <FieldHead survey={survey.id} title="Safe to leave?" trouble={trouble} />
      {answer === null ? (
        <p class="opening">Looking…</p>
      ) : (
        <>
          <Decision leave={answer} />
          <WhereWeAre survey={survey} at={at} onAt={setAt} />
          <Missing survey={survey} leave={answer} />
          {answer.staying.length > 0 && (
            <section class="field-block">
              <h2>Traps that stay</h2>
              <p>Somebody must come back to each of them in time. Who does?</p>
              <ul class="field-list">
                {answer.staying.map((trap) => (
                  <TrapLine key={trap.trap.id} survey={survey.id} trap={trap} />
                ))}
              </ul>
            </section>
          )}
          {answer.silent.length > 0 && <SilentList survey={survey} silent={answer.silent} />}
          {answer.reminders.length > 0 && (
            <section class="field-block">
              <h2>Before you turn your back</h2>
              <ul class="field-reminders">
                {answer.reminders.map(({ kind, words }) => (
                  <li key={kind}>{words}</li>
                ))}
              </ul>
            </section>
          )}
        </>
      )}
    </article>
  )
}

function Missing({ survey, leave }: { survey: SurveyFile; leave: Leave }) {
  if (leave.stops.length + leave.elsewhere.length === 0) return null
  return (
    <section class="field-block">
      <h2>What is missing</h2>
      <ol class="leave-stops">
        {leave.stops.map((stop, index) => (
          <LeaveStopEntry key={stop.quadrat} survey={survey} stop={stop} isNext={index === 0} />
        ))}
      </ol>
      {leave.elsewhere.length > 0 && (
        <>
          <h3>At no quadrat</h3>
          <ul class="leave-things">
            {leave.elsewhere.map((thing) => (
              <ThingLine key={`${thing.kind} ${thing.of}`} survey={survey.id} thing={thing} quadrat={null} />
            ))}
          </ul>
        </>
      )}
    </section>
  )
}
