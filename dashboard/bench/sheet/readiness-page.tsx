import { useEffect, useState } from 'preact/hooks'
import type { ProbeReadiness } from '../../../hub/contract/readiness.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { client, messageOf } from '../../client.ts'
import { currentSurveyId, rememberSurvey, siteZone } from '../../current-survey.ts'
import { momentText } from '../../format-time.ts'
import { hubMs } from '../../hub-clock.ts'
import { hub, surveyKept } from '../../notebook.ts'
import { NoSurvey, Waiting } from '../../pages/no-survey.tsx'
import { quantityWords } from '../../quantities.ts'
import { pathTo } from '../../router.ts'
import { ReadinessRow } from './readiness-row.tsx'
import { summaryOf } from './states.ts'

/** Which probes may go out, and what each of the others wants. */
export function ReadinessPage() {
  const surveys = hub.value?.surveys ?? []
  const id = currentSurveyId.value
  if (surveys.length === 0) {
    return (
      <article class="plain-page">
        <h1>Bench</h1>
        <p>The probes of a survey are calibrated here. There is no survey yet.</p>
        <p>
          <a class="button" href={pathTo.setUp}>
            Set up a survey
          </a>
        </p>
      </article>
    )
  }
  return (
    <article class="bench readiness">
      {surveys.length > 1 && (
        <div class="bench-field which-survey">
          <label for="which-survey">Survey</label>
          <select
            id="which-survey"
            value={id ?? ''}
            onChange={(event) => rememberSurvey(event.currentTarget.value)}
          >
            {id === null && <option value="">choose one</option>}
            {surveys.map((survey) => (
              <option key={survey.id} value={survey.id} selected={survey.id === id}>
                {survey.title}
              </option>
            ))}
          </select>
        </div>
      )}
      {id === null ? <h1>Bench</h1> : <OfSurvey key={id} id={id} />}
    </article>
  )
}

function OfSurvey({ id }: { id: string }) {
  const survey = surveyKept(id).value
  const [told, setTold] = useState<readonly ProbeReadiness[] | null>(null)
  const [trouble, setTrouble] = useState('')
  useEffect(() => {
    client
      .readiness(id)
      .then(({ probes }) => {
        setTold(probes)
        setTrouble('')
      })
      .catch((error: unknown) => setTrouble(messageOf(error)))
  }, [id, survey])
  if (typeof survey === 'string') return <NoSurvey why={survey} />
  if (survey === null || told === null) return trouble === '' ? <Waiting /> : <p role="alert">{trouble}</p>
  return <Sheet survey={survey} probes={told} />
}

function Sheet({ survey, probes }: { survey: SurveyFile; probes: readonly ProbeReadiness[] }) {
  const [isOnlyWaiting, setOnlyWaiting] = useState(false)
  const [quantity, setQuantity] = useState('')
  const quantities = [...new Set(probes.map((probe) => probe.quantity))]
  const shown = probes.filter(
    (probe) => (!isOnlyWaiting || !probe.mayGoOut) && (quantity === '' || probe.quantity === quantity),
  )
  return (
    <>
      <div class="page-head">
        <div>
          <h1>Bench</h1>
          <p class="readiness-summary" role="status">
            {summaryOf(probes)}
          </p>
          <p class="only-print">
            {survey.title}, {momentText(hubMs.value, siteZone.value)}
          </p>
        </div>
        <p class="downloads">
          <button type="button" class="plain" onClick={() => print()}>
            Print the sheet
          </button>
        </p>
      </div>
      <div class="readiness-filter">
        <label class="bench-tick">
          <input
            type="checkbox"
            name="onlyWaiting"
            checked={isOnlyWaiting}
            onChange={(event) => setOnlyWaiting(event.currentTarget.checked)}
          />
          <span>who may not go out yet</span>
        </label>
        <fieldset class="bench-few" aria-label="Quantity">
          {['', ...quantities].map((name) => (
            <button
              key={name}
              type="button"
              class="bench-pick"
              aria-pressed={quantity === name}
              onClick={() => setQuantity(name)}
            >
              {name === '' ? 'all' : quantityWords(name).short}
            </button>
          ))}
        </fieldset>
      </div>
      {shown.length === 0 ? (
        <p class="result-empty">
          {probes.length === 0 ? 'This survey has no probes yet.' : 'None: all may go out.'}
        </p>
      ) : (
        <table class="readiness-table">
          <thead>
            <tr>
              <th scope="col">Probe</th>
              <th scope="col">State</th>
              <th scope="col">Calibrated</th>
              <th scope="col">Last check</th>
              <th scope="col" class="not-print">
                At the bench
              </th>
            </tr>
          </thead>
          <tbody>
            {shown.map((row) => (
              <ReadinessRow key={row.probe} survey={survey} row={row} />
            ))}
          </tbody>
        </table>
      )}
    </>
  )
}
