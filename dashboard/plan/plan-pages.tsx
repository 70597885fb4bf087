import { useEffect, useState } from 'preact/hooks'
import { rememberSurvey } from '../current-survey.ts'
import { surveyKept } from '../notebook.ts'
import { NoSurvey, Waiting } from '../pages/no-survey.tsx'
import { EnoughPage } from './enough/enough-page.tsx'
import { PlanPage } from './plan-page.tsx'
import { CardsPage } from './print/cards-page.tsx'
import { SheetPage } from './print/sheet-page.tsx'
import '../style/plan.css'

/** Pages of the chapter “plan”. */
export function PlanPages({ survey: id, rest }: { survey: string; rest: readonly string[] }) {
  const [renewals, setRenewals] = useState(0)
  useEffect(() => rememberSurvey(id), [id])
  const survey = surveyKept(id).value
  if (survey === null) return <Waiting />
  if (typeof survey === 'string') return <NoSurvey why={survey} />
  if (rest.length > 1) return <NoSurvey why={`There is no page “${rest.join('/')}” in the plan.`} />
  switch (rest[0]) {
    case undefined:
      return <PlanPage key={renewals} survey={survey} onRenewed={() => setRenewals((count) => count + 1)} />
    case 'cards':
      return <CardsPage survey={survey} />
    case 'sheet':
      return <SheetPage survey={survey} />
    case 'enough':
      return <EnoughPage survey={survey} />
    default:
      return <NoSurvey why={`There is no page “${rest[0]}” in the plan.`} />
  }
}
