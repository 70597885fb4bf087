import { useEffect } from 'preact/hooks'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { rememberSurvey } from '../../current-survey.ts'
import { countText } from '../../format.ts'
import { surveyKept } from '../../notebook.ts'
import { NoSurvey, Waiting } from '../../pages/no-survey.tsx'
import { pathTo } from '../../router.ts'
import { handOver } from '../csv/hand-over.ts'
import { decisionsCsv } from './decision-csv.ts'
import { DecisionEntry } from './decision-entry.tsx'

/** Every decision by hand of a survey, those taken back too: nothing that was decided is forgotten. */
export function DecisionsPage({ id }: { id: string }) {
  useEffect(() => rememberSurvey(id), [id])
  const survey = surveyKept(id).value
  if (survey === null) return <Waiting />
  if (typeof survey === 'string') return <NoSurvey why={survey} />
  const decisions = survey.decisions ?? []
  const inForce = decisions.filter(({ takenBack }) => !takenBack).length
  return (
    <article class="ledger decisions-page">
      <p>
        <a class="lesser" href={pathTo.survey(id)}>
          whole tape
        </a>
      </p>
      <h1>Decisions by hand</h1>
      <p>
        Readings that somebody left out because something happened to the measuring, and suspect ones that
        somebody looked into and accepted. No reading is ever deleted, and each decision can be taken back.
      </p>
      {decisions.length === 0 ? (
        <p class="hint">
          Nobody has decided anything yet. Open a quadrat, draw a span on one of its charts, and say what
          happened.
        </p>
      ) : (
        <>
          <p class="said" data-decisions={decisions.length}>
            {countText(decisions.length, 'decision')}, {inForce} in force.
          </p>
          <Downloads survey={survey} />
          <ol class="decisions">
            {decisions.toReversed().map((decision) => (
              <DecisionEntry key={decision.id} survey={survey} decision={decision} />
            ))}
          </ol>
        </>
      )}
    </article>
  )
}

function Downloads({ survey }: { survey: SurveyFile }) {
  const name = `decisions-${survey.id}`
  return (
    <p class="decision-files">
      <button
        type="button"
        class="plain"
        id="download-decisions-csv"
        onClick={() => handOver(`${name}.csv`, 'text/csv', decisionsCsv(survey))}
      >
        Download as CSV
      </button>
      <button
        type="button"
        class="plain"
        id="download-decisions-json"
        onClick={() =>
          handOver(`${name}.json`, 'application/json', `${JSON.stringify(survey.decisions ?? [], null, 2)}\n`)
        }
      >
        Download as JSON
      </button>
    </p>
  )
}
