import { useEffect } from 'preact/hooks'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { rememberSurvey } from '../current-survey.ts'
import { surveyKept } from '../notebook.ts'
import { NoSurvey, Waiting } from '../pages/no-survey.tsx'
import { CheckPage } from './check/check-page.tsx'
import { CalibratePage } from './fit/calibrate-page.tsx'
import type { BenchPlace } from './places.ts'
import { ProbeHead } from './probe-head.tsx'
import { RecordPage } from './records/record-page.tsx'
import { RecordsPage } from './records/records-page.tsx'
import { ReadinessPage } from './sheet/readiness-page.tsx'
import './bench.css'
import './hold/hold.css'
import './fit/fit.css'
import './sheet/sheet.css'
import './records/record.css'

export function BenchPages({ here }: { here: BenchPlace }) {
  if (here.page === 'bench') return <ReadinessPage />
  return <OfProbe key={`${here.survey}/${here.probe}`} here={here} />
}

function OfProbe({ here }: { here: Exclude<BenchPlace, { page: 'bench' }> }) {
  useEffect(() => rememberSurvey(here.survey), [here.survey])
  const survey = surveyKept(here.survey).value
  if (survey === null) return <Waiting />
  if (typeof survey === 'string') return <NoSurvey why={survey} />
  const probe = survey.probes.find(({ id }) => id === here.probe)
  if (!probe) return <NoSurvey why={`The survey “${survey.title}” has no probe “${here.probe}”.`} />
  if (here.page === 'bench-record') {
    const calibration = survey.calibrations.find(({ id }) => id === here.calibration)
    if (!calibration || calibration.probe !== probe.id)
      return <NoSurvey why={`Probe ${probe.id} has no calibration “${here.calibration}”.`} />
    return <RecordPage survey={survey} probe={probe} calibration={calibration} />
  }
  return (
    <article class="bench" data-bench={probe.id}>
      <ProbeHead survey={survey} probe={probe} task={here.task} />
      {taskPage(here.task, survey, probe)}
    </article>
  )
}

function taskPage(
  task: 'calibrate' | 'check' | 'records',
  survey: SurveyFile,
  probe: SurveyFile['probes'][number],
) {
  if (task === 'check') return <CheckPage survey={survey} probe={probe} />
  if (task === 'records') return <RecordsPage survey={survey} probe={probe} />
  return <CalibratePage survey={survey} probe={probe} />
}
