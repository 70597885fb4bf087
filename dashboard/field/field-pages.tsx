import { useEffect } from 'preact/hooks'
import { rememberSurvey } from '../current-survey.ts'
import { surveyKept } from '../notebook.ts'
import { NoSurvey, Waiting } from '../pages/no-survey.tsx'
import { NowherePage } from '../pages/nowhere.tsx'
import { pathTo } from '../router.ts'
import { ClocksPage } from './clocks/clocks-page.tsx'
import { DepartPage } from './depart/depart-page.tsx'
import { FieldHome } from './field-home.tsx'
import { LeavePage } from './leave/leave-page.tsx'
import { PairingPage } from './pairing/pairing-page.tsx'
import { PhonesPage } from './phones/phones-page.tsx'
import { PlacementsPage } from './placements/placements-page.tsx'
import { ReturnPage } from './return/return-page.tsx'
import { TrapsPage } from './traps/traps-page.tsx'
import './field.css'
import './print-field.css'

/** Pages of the chapter “field”: before leaving, in the field, and on return. */
export function FieldPages({ survey: id, rest }: { survey: string; rest: readonly string[] }) {
  useEffect(() => rememberSurvey(id), [id])
  const survey = surveyKept(id).value
  if (survey === null) return <Waiting />
  if (typeof survey === 'string') return <NoSurvey why={survey} />
  switch (rest.length > 1 ? 'nowhere' : rest[0]) {
    case undefined:
      return <FieldHome survey={survey} />
    case 'leave':
      return <LeavePage survey={survey} />
    case 'depart':
      return <DepartPage survey={survey} />
    case 'return':
      return <ReturnPage survey={survey} />
    case 'phones':
      return <PhonesPage survey={survey} />
    case 'traps':
      return <TrapsPage survey={survey} />
    case 'placements':
      return <PlacementsPage survey={survey} />
    case 'clocks':
      return <ClocksPage survey={survey} />
    case 'pairing':
      return <PairingPage survey={survey} />
    default:
      return <NowherePage path={pathTo.chapter(id, 'field', ...rest)} />
  }
}
