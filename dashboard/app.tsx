import { EnterPage } from './access/enter-page.tsx'
import { you } from './access/you.ts'
import {
  BenchDoor,
  BoardsDoor,
  chapterDoors,
  DecisionsDoor,
  QuadratDoor,
  QualityDoor,
  QuarantineDoor,
  SetUpDoor,
} from './doors.tsx'
import { boards } from './notebook.ts'
import { HomePage } from './pages/home.tsx'
import { Waiting } from './pages/no-survey.tsx'
import { NowherePage } from './pages/nowhere.tsx'
import { SurveyPage } from './pages/survey.tsx'
import { Frame } from './parts/frame.tsx'
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
      return <QuadratDoor key={`${here.survey}/${here.quadrat}`} id={here.survey} label={here.quadrat} />
    case 'quality':
      return <QualityDoor key={here.survey} id={here.survey} />
    case 'decisions':
      return <DecisionsDoor key={here.survey} id={here.survey} />
    case 'chapter': {
      const Pages = chapterDoors[here.chapter]
      return <Pages key={here.survey} survey={here.survey} rest={here.rest} />
    }
    case 'boards':
      return <BoardsDoor />
    case 'set-up':
      return <SetUpDoor />
    case 'enter':
      return <EnterPage />
    case 'quarantine':
      return <QuarantineDoor />
    case 'bench':
    case 'bench-probe':
    case 'bench-record':
      return <BenchDoor here={here} />
    case 'nowhere':
      return <NowherePage path={here.path} />
  }
}
