import { useEffect } from 'preact/hooks'
import { readingsCsvAddress, surveyFileAddress } from '../client.ts'
import { rememberSurvey } from '../current-survey.ts'
import { hubMs } from '../hub-clock.ts'
import { channelList, surveyKept } from '../notebook.ts'
import { PlotTable } from '../parts/plot-table.tsx'
import { SurveyTally } from '../parts/survey-tally.tsx'
import { TransectPicture } from '../parts/transect-picture.tsx'
import { CleanPanel } from '../quality/clean/clean-panel.tsx'
import { pathTo } from '../router.ts'
import { NoSurvey, Waiting } from './no-survey.tsx'

/** The main picture: the tape, its quadrats, what they read now, and the way to the clean readings. */
export function SurveyPage({ id }: { id: string }) {
  useEffect(() => rememberSurvey(id), [id])
  const survey = surveyKept(id).value
  if (survey === null) return <Waiting />
  if (typeof survey === 'string') return <NoSurvey why={survey} />
  const channels = channelList.value
  const nowMs = hubMs.value
  const isPlaced = channels.some((channel) => channel.survey === id && channel.quadrat !== null)
  const { site } = survey
  return (
    <article class="survey-page">
      <div class="page-head">
        <div>
          <h1>{survey.title}</h1>
          <p class="byline">
            {site.name}
            {survey.from
              ? `, ${survey.from}${survey.to && survey.to !== survey.from ? ` to ${survey.to}` : ''}`
              : ''}
          </p>
          <SurveyTally survey={survey} channels={channels} nowMs={nowMs} />
        </div>
        <p class="downloads">
          <a id="download-clean" class="button" href={readingsCsvAddress(id, 'clean')} download>
            Download clean readings (CSV)
          </a>
          <a id="download-excluded" class="lesser" href={readingsCsvAddress(id, 'excluded')} download>
            readings left out, with the reason (CSV)
          </a>
          <a id="download-all" class="lesser" href={readingsCsvAddress(id, 'all')} download>
            all readings, with their flags (CSV)
          </a>
        </p>
      </div>
      <CleanPanel survey={survey} />
      {!isPlaced && (
        <p class="hint">
          Everything is laid out and waits for probes. <a href={pathTo.boards}>Go to the boards</a> to put a
          probe at a quadrat.
        </p>
      )}
      {survey.transects.map((transect) => (
        <section class="transect" key={transect.id}>
          <h2 class={survey.transects.length === 1 ? 'unseen' : ''}>
            {transect.id} {transect.name ?? ''}
          </h2>
          {transect.bearingDegrees !== undefined && (
            <p class="bearing">
              {transect.id} runs at {transect.bearingDegrees}° from its zero mark (clockwise from north).
            </p>
          )}
          <TransectPicture {...{ survey, transect, channels, nowMs }} />
        </section>
      ))}
      {(survey.plots ?? []).map((plot) => (
        <PlotTable key={plot.id} {...{ survey, plot, channels, nowMs }} />
      ))}
      <p class="page-foot">
        <a href={surveyFileAddress(id)} download={`${id}.json`}>
          Survey file (JSON): the plan, probes, placements and calibrations
        </a>
        <a href={pathTo.setUp}>Set up another survey</a>
      </p>
    </article>
  )
}
