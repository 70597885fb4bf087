import { useEffect, useState } from 'preact/hooks'
import { isInPlot, isOnTransect } from '../../hub/contract/quadrat-place.ts'
import type { Quadrat, SurveyFile } from '../../hub/contract/survey.ts'
import { readingsCsvAddress } from '../client.ts'
import { rememberSurvey } from '../current-survey.ts'
import { metresText, placeText } from '../format.ts'
import { hubMs } from '../hub-clock.ts'
import { channelList, surveyKept } from '../notebook.ts'
import { FlagKey } from '../parts/flag-key.tsx'
import { QuadratChart } from '../parts/quadrat-chart.tsx'
import { QuadratLocator } from '../parts/quadrat-locator.tsx'
import { QuadratSpots } from '../parts/quadrat-spots.tsx'
import { SeriesMargin } from '../parts/series-margin.tsx'
import { zoneAt } from '../parts/zones.ts'
import { firstPlacedMs, useQuadratPoints } from '../quadrat-points.ts'
import { rowsFor } from '../quantities.ts'
import { pathTo } from '../router.ts'
import { spans } from '../spans.ts'
import { useSteps } from '../use-steps.ts'
import { NoSurvey, Waiting } from './no-survey.tsx'

/** In a second a chart of ten minutes moves by a pixel. */
const CHARTS_EVERY_MS = 900

/** One quadrat: where it lies, and what each of its probes reads over time. */
export function QuadratPage({ id, label }: { id: string; label: string }) {
  useEffect(() => rememberSurvey(id), [id])
  const survey = surveyKept(id).value
  if (survey === null) return <Waiting />
  if (typeof survey === 'string') return <NoSurvey why={survey} />
  const quadrat = survey.quadrats.find((candidate) => candidate.label === label)
  if (!quadrat) return <NoSurvey why={`“${survey.title}” has no quadrat ${label}.`} />
  return <QuadratSheet survey={survey} quadrat={quadrat} />
}

function QuadratSheet({ survey, quadrat }: { survey: SurveyFile; quadrat: Quadrat }) {
  const { label } = quadrat
  const [span, setSpan] = useState<(typeof spans)[number]>(spans[0])
  const channels = channelList.value
  const nowMs = hubMs.value
  const toMs = useSteps(nowMs, CHARTS_EVERY_MS, span)
  const { all, nights, marks, trouble } = useQuadratPoints(survey, label, span, channels, toMs)
  const fromMs = span.ms === null ? Math.min(firstPlacedMs(survey, label), toMs - 60_000) : toMs - span.ms
  const transect = survey.transects.find((candidate) => candidate.id === quadrat.transect)
  const along = survey.quadrats
    .filter(isOnTransect)
    .filter((candidate) => candidate.transect === quadrat.transect)
    .sort((one, other) => one.distanceMetres - other.distanceMetres)
  const nextDoor = isInPlot(quadrat) ? survey.quadrats.filter(({ plot }) => plot === quadrat.plot) : along
  const at = nextDoor.findIndex((candidate) => candidate.label === label)
  const zone = survey.site.timeZone
  const zoneName = transect && isOnTransect(quadrat) ? zoneAt(transect, quadrat.distanceMetres) : null
  return (
    <article class="quadrat-page">
      <nav class="neighbours" aria-label={transect ? 'Quadrats along the tape' : 'Quadrats of the plot'}>
        <Neighbour survey={survey} quadrat={nextDoor[at - 1]} arrow="‹" />
        <a class="lesser" href={pathTo.survey(survey.id)}>
          {transect ? 'whole tape' : 'whole survey'}
        </a>
        <Neighbour survey={survey} quadrat={nextDoor[at + 1]} arrow="›" />
      </nav>
      <div class="page-head">
        <div>
          <h1>{label}</h1>
          <p class="byline">
            {placeText(quadrat)}
            {zoneName ? `, ${zoneName}` : ''}; side {metresText(quadrat.sideMetres)}
          </p>
        </div>
        <a class="lesser" href={readingsCsvAddress(survey.id, 'clean', label)} download>
          clean readings of {label} (CSV)
        </a>
      </div>
      {transect && <QuadratLocator transect={transect} quadrats={along} chosen={label} />}
      <fieldset class="spans">
        <legend>Show the last</legend>
        {spans.map((each) => (
          <button
            key={each.name}
            type="button"
            class={each === span ? 'plain chosen' : 'plain'}
            aria-pressed={each === span}
            onClick={() => setSpan(each)}
          >
            {each.name}
          </button>
        ))}
      </fieldset>
      <FlagKey survey={survey.id} hasNights={nights.length > 0} />
      {trouble && <p role="alert">{trouble}</p>}
      {all === null && !trouble && <Waiting />}
      {all !== null &&
        rowsFor(all.map(({ series }) => series.quantity)).map((row) => {
          const ofRow = all.filter(({ series }) => series.quantity === row.name)
          if (ofRow.length === 0)
            return (
              <section class="series" key={row.name}>
                <div class="series-margin">
                  <h2>{row.label}</h2>
                </div>
                <p class="no-probe">
                  No probe measures this here. <a href={pathTo.boards}>Put one in place</a>
                </p>
              </section>
            )
          return ofRow.map((live) => {
            const channel = channels.find(
              ({ id, probe }) => id === live.series.channel && probe === live.series.probe,
            )
            return (
              <section class="series" key={`${live.series.probe} ${live.series.channel} ${live.series.unit}`}>
                <SeriesMargin
                  live={live}
                  channel={channel?.quadrat === label ? channel : undefined}
                  nowMs={nowMs}
                />
                <QuadratChart {...{ survey, live, nights, marks, fromMs, toMs, zone }} quadrat={label} />
              </section>
            )
          })
        })}
      <QuadratSpots survey={survey} quadrat={label} />
    </article>
  )
}

function Neighbour(props: { survey: SurveyFile; quadrat: Quadrat | undefined; arrow: '‹' | '›' }) {
  const { survey, quadrat, arrow } = props
  if (!quadrat) return <span class="neighbour" />
  const isBefore = arrow === '‹'
  return (
    <a
      class="button plain neighbour"
      href={pathTo.quadrat(survey.id, quadrat.label)}
      aria-label={`${isBefore ? 'previous' : 'next'} quadrat, ${quadrat.label}`}
    >
      {isBefore && <span aria-hidden="true">‹ </span>}
      {quadrat.label}
      {!isBefore && <span aria-hidden="true"> ›</span>}
    </a>
  )
}
