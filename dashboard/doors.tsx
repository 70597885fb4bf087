import type { ComponentType } from 'preact'
import { doorTo } from './door.tsx'
import { LoadSurveyFile } from './parts/load-survey-file.tsx'
import type { Chapter } from './router.ts'

const chartPage = () => import('./pages/quadrat.tsx').then(({ QuadratPage }) => QuadratPage)

export const QuadratDoor = doorTo(chartPage)
export const BoardsDoor = doorTo(() => import('./pages/boards.tsx').then(({ BoardsPage }) => BoardsPage))
export const QuarantineDoor = doorTo(() =>
  import('./pages/quarantine.tsx').then(({ QuarantinePage }) => QuarantinePage),
)
export const QualityDoor = doorTo(() =>
  import('./quality/limits/quality-page.tsx').then(({ QualityPage }) => QualityPage),
)
export const DecisionsDoor = doorTo(() =>
  import('./quality/decisions/decisions-page.tsx').then(({ DecisionsPage }) => DecisionsPage),
)
export const SetUpDoor = doorTo(
  () => import('./plan/new-survey.tsx').then(({ NewSurvey }) => NewSurvey),
  () => <LoadSurveyFile />,
)
export const BenchDoor = doorTo(() => import('./bench/bench-pages.tsx').then(({ BenchPages }) => BenchPages))

/** A part of the notebook with pages of its own, all about one survey. `rest` is what follows in the address. */
type ChapterPages = ComponentType<{ survey: string; rest: readonly string[] }>

export const chapterDoors: Record<Chapter, ChapterPages> = {
  plan: doorTo(() => import('./plan/plan-pages.tsx').then(({ PlanPages }) => PlanPages)),
  carry: doorTo(() => import('./carry/carry-pages.tsx').then(({ CarryPages }) => CarryPages)),
  field: doorTo(() => import('./field/field-pages.tsx').then(({ FieldPages }) => FieldPages)),
  study: doorTo(() => import('./study/study-pages.tsx').then(({ StudyPages }) => StudyPages)),
}

/** From the tape to a quadrat's charts is the commonest way: they are fetched once the first page stands. */
export function fetchChartsAhead(): void {
  const fetchThem = () => void chartPage().catch(() => undefined)
  if ('requestIdleCallback' in window) requestIdleCallback(fetchThem, { timeout: 5000 })
  else setTimeout(fetchThem, 2000)
}
