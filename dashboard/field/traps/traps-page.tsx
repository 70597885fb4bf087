import { useState } from 'preact/hooks'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { rememberWho, whoBefore } from '../../bench/fit/who.ts'
import { WhoField } from '../../bench/who-field.tsx'
import { refreshAll } from '../../notebook.ts'
import { fieldClient } from '../field-client.ts'
import { FieldHead } from '../field-head.tsx'
import { useAnswer } from '../use-answer.ts'
import { SetTrap } from './set-trap.tsx'
import { TrapEntry } from './trap-entry.tsx'
import { readWatchedTraps } from './watched-traps.ts'
import './traps.css'

/** Traps, refuges and funnels with their clocks: the most urgent first, then the way to set another. */
export function TrapsPage({ survey }: { survey: SurveyFile }) {
  const { answer, trouble, fetchNow } = useAnswer(survey.id, () => fieldClient.traps(survey.id))
  const [said, setSaid] = useState('')
  const [by, setBy] = useState(whoBefore)
  const changed = (words: string) => {
    setSaid(words)
    refreshAll()
    fetchNow()
    readWatchedTraps()
  }
  const open = answer?.traps.filter(({ state }) => state !== 'closed') ?? []
  const closed = answer?.traps.filter(({ state }) => state === 'closed') ?? []
  const entries = (traps: typeof open) => (
    <ul class="traps">
      {traps.map((trap) => (
        <TrapEntry key={trap.trap.id} survey={survey.id} trap={trap} by={by} onSaid={changed} />
      ))}
    </ul>
  )
  return (
    <article class="field-page traps-page">
      <FieldHead survey={survey.id} title="Traps and funnels" trouble={trouble} />
      <p class="said" role="status" aria-live="polite">
        {said}
      </p>
      {answer === null ? (
        <p class="opening">Looking…</p>
      ) : (
        <>
          {open.length === 0 ? <p>No trap is out.</p> : entries(open)}
          <WhoField
            id="trap-by"
            who={by}
            onWho={(who) => {
              setBy(who.slice(0, 20))
              rememberWho(who.slice(0, 20))
            }}
          />
          <SetTrap survey={survey} weather={answer.weather} by={by} onSaid={changed} />
          {closed.length > 0 && (
            <section class="field-block">
              <h2>Taken up</h2>
              {entries(closed)}
            </section>
          )}
        </>
      )}
    </article>
  )
}
