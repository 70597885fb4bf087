import { useEffect } from 'preact/hooks'
import { rememberSurvey } from '../current-survey.ts'
import { surveyKept } from '../notebook.ts'
import { NoSurvey, Waiting } from '../pages/no-survey.tsx'
import { NowherePage } from '../pages/nowhere.tsx'
import { pathTo } from '../router.ts'
import { AnimalsPage } from './animals/animals-page.tsx'
import { DownloadPage } from './download/download-page.tsx'
import { JoinPage } from './join/join-page.tsx'
import { LookPage } from './look/look-page.tsx'
import { PairPage } from './pairs/pair-page.tsx'
import { TestPage } from './pairs/test-page.tsx'
import { ReportPage } from './report/report-page.tsx'
import { SpeciesPage } from './species/species-page.tsx'
import { StudyHome } from './study-home.tsx'
import { SummaryPage } from './summary/summary-page.tsx'
import { TypingPage } from './typing/typing-page.tsx'
import './study.css'
import './study-tables.css'

/** Pages of the chapter “study”: from readings to the write-up. */
export function StudyPages({ survey: id, rest }: { survey: string; rest: readonly string[] }) {
  useEffect(() => rememberSurvey(id), [id])
  const survey = surveyKept(id).value
  if (survey === null) return <Waiting />
  if (typeof survey === 'string') return <NoSurvey why={survey} />
  const [page, factor, species] = rest
  if (page === 'test' && rest.length === 3 && factor !== undefined && species !== undefined)
    return <PairPage key={`${factor}\n${species}`} survey={survey} factor={factor} species={species} />
  switch (rest.length > 1 ? 'nowhere' : page) {
    case undefined:
      return <StudyHome survey={survey} />
    case 'species':
      return <SpeciesPage survey={survey} />
    case 'type':
      return <TypingPage survey={survey} />
    case 'animals':
      return <AnimalsPage survey={survey} />
    case 'summary':
      return <SummaryPage survey={survey} />
    case 'join':
      return <JoinPage survey={survey} />
    case 'look':
      return <LookPage survey={survey} />
    case 'test':
      return <TestPage survey={survey} />
    case 'report':
      return <ReportPage survey={survey} />
    case 'download':
      return <DownloadPage survey={survey} />
    default:
      return <NowherePage path={pathTo.chapter(id, 'study', ...rest)} />
  }
}
