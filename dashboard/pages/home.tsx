import { useEffect } from 'preact/hooks'
import { connection } from '../live.ts'
import { hub } from '../notebook.ts'
import { BlankTape } from '../parts/blank-tape.tsx'
import { LoadSurveyFile } from '../parts/load-survey-file.tsx'
import { changingOver, startRehearsal } from '../rehearsal.ts'
import { goTo, pathTo } from '../router.ts'
import { Waiting } from './no-survey.tsx'

/** The first page: two ways on in a fresh notebook, the one survey there is, or a list of them. */
export function HomePage() {
  const now = hub.value
  const only = now?.surveys.length === 1 ? now.surveys[0]?.id : undefined
  useEffect(() => {
    if (only !== undefined) goTo(pathTo.survey(only), true)
  }, [only])
  if (!now || only !== undefined) return <Waiting />
  if (now.surveys.length > 0)
    return (
      <article class="plain-page">
        <h1>Surveys in this notebook</h1>
        <ul class="contents">
          {now.surveys.map(({ id, title }) => (
            <li key={id}>
              <a href={pathTo.survey(id)}>
                <span>{title}</span>
                <small>{id}</small>
              </a>
            </li>
          ))}
        </ul>
        <p class="ways">
          <a class="button" href={pathTo.setUp}>
            Set up a survey
          </a>
        </p>
        <LoadSurveyFile />
      </article>
    )
  const isBusy = changingOver.value !== null || connection.value === 'lost'
  return (
    <article class="first-page">
      <BlankTape />
      <h1>A fresh notebook</h1>
      <p class="lead">
        Lay a tape from shade to light, put quadrats along it, and let the probes write: soil pH, moisture,
        light, soil temperature and wind, each reading kept with its quadrat.
      </p>
      <div class="ways">
        <section>
          <h2>Going out?</h2>
          <p>Say how long the tape is and where the quadrats lie. It takes a few minutes.</p>
          <a class="button" href={pathTo.setUp}>
            Set up a survey
          </a>
        </section>
        <section>
          <h2>Trying it first?</h2>
          <p>
            A made-up class with eight boards starts to measure, in a notebook of its own. No hardware needed.
          </p>
          <button type="button" class="button" disabled={isBusy} onClick={() => void startRehearsal()}>
            Rehearse with a simulated class
          </button>
        </section>
      </div>
      <LoadSurveyFile />
    </article>
  )
}
