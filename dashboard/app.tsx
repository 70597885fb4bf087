import { EnterPage } from './access/enter-page.tsx'
import { you } from './access/you.ts'
import { BenchDoor } from './bench/bench-door.tsx'
import { ChapterDoor } from './chapter-door.tsx'
import { boards } from './notebook.ts'
import { BoardsPage } from './pages/boards.tsx'
import { HomePage } from './pages/home.tsx'
import { Waiting } from './pages/no-survey.tsx'
import { NowherePage } from './pages/nowhere.tsx'
import { QuadratPage } from './pages/quadrat.tsx'
import { QuarantinePage } from './pages/quarantine.tsx'
import { SetUpPage } from './pages/set-up.tsx'
import { SurveyPage } from './pages/survey.tsx'
import { Frame } from './parts/frame.tsx'
import { DecisionsPage } from './quality/decisions/decisions-page.tsx'
import { QualityPage } from './quality/limits/quality-page.tsx'
import { type Place, place } from './router.ts'

export function App() {
  // no page is drawn before the hub's clock and channels are known, but for the one that is used out of reach of it
  const here = place.value
  const mayWait = here.page !== 'chapter' || here.chapter !== 'carry'
  if (you.value?.role === 'stranger')
    return (
      <Frame>
        <EnterPage />
      </Frame>
    )
  return <Frame>{boards.value === null && mayWait ? <Waiting /> : pageOf(here)}</Frame>
}

function pageOf(here: Place) {
  switch (here.page) {
    case 'home':
      return <HomePage />
    case 'survey':
      return <SurveyPage key={here.survey} id={here.survey} />
    case 'quadrat':
      return <QuadratPage key={`${here.survey}/${here.quadrat}`} id={here.survey} label={here.quadrat} />
    case 'quality':
      return <QualityPage key={here.survey} id={here.survey} />
    case 'decisions':
      return <DecisionsPage key={here.survey} id={here.survey} />
    case 'chapter':
      return <ChapterDoor chapter={here.chapter} survey={here.survey} rest={here.rest} />
    case 'boards':
      return <BoardsPage />
    case 'set-up':
      return <SetUpPage />
    case 'enter':
      return <EnterPage />
    case 'quarantine':
      return <QuarantinePage />
    case 'bench':
    case 'bench-probe':
    case 'bench-record':
      return <BenchDoor here={here} />
    case 'nowhere':
      return <NowherePage path={here.path} />
  }
}
