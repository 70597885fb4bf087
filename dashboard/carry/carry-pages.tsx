import { useEffect } from 'preact/hooks'
import { rememberSurvey } from '../current-survey.ts'
import { connection } from '../live.ts'
import { fetchSurvey, surveyKept } from '../notebook.ts'
import { NoSurvey, Waiting } from '../pages/no-survey.tsx'
import { ChoosePage } from './choose-page.tsx'
import { keepPageForLater } from './keep-page.ts'
import { isKeptOnPhone, openPhone, rememberSeen, surveysSeen } from './on-this-phone.ts'
import { QuadratPage } from './quadrat-page.tsx'
import { UnsentStrip } from './unsent-strip.tsx'
import '../bench/hold/hold.css'
import './carry.css'
import './carry-hold.css'

/** A meter carried from quadrat to quadrat, on one phone. Without a quadrat in the address, one is chosen. */
export function CarryPages({ survey: id, rest }: { survey: string; rest: readonly string[] }) {
  const fromHub = surveyKept(id).value
  useEffect(() => {
    rememberSurvey(id)
    void openPhone()
    keepPageForLater()
  }, [id])
  // a page that was opened out of reach of the hub asks again when it is back
  const isLive = connection.value === 'live'
  useEffect(() => {
    if (isLive && surveyKept(id).peek() === null) void fetchSurvey(id)
  }, [isLive, id])
  const isOpen = isKeptOnPhone.value !== null
  useEffect(() => {
    if (isOpen && fromHub !== null && typeof fromHub === 'object') rememberSeen(fromHub)
  }, [isOpen, fromHub])
  const survey = fromHub ?? surveysSeen.value.get(id) ?? null
  if (typeof survey === 'string')
    return (
      <>
        <UnsentStrip survey={null} />
        <NoSurvey why={survey} />
      </>
    )
  if (survey === null || !isOpen) return <Waiting />
  const [label] = rest
  return (
    <article class="carry">
      <UnsentStrip survey={survey} />
      {label === undefined ? (
        <ChoosePage survey={survey} />
      ) : (
        <QuadratPage key={label} survey={survey} label={label} />
      )}
    </article>
  )
}
