import type { ComponentType } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import { LoadSurveyFile } from '../parts/load-survey-file.tsx'
import { Waiting } from './no-survey.tsx'

/** Sets up a survey on the planning page, which is fetched when first asked for. */
export function SetUpPage() {
  const [page, setPage] = useState<{ Page: ComponentType } | 'shut' | null>(null)
  const open = () => {
    setPage(null)
    import('../plan/new-survey.tsx').then(
      ({ default: Page }) => setPage({ Page }),
      () => setPage('shut'),
    )
  }
  useEffect(open, [])
  if (page === null) return <Waiting />
  if (page !== 'shut') return <page.Page />
  return (
    <article class="plain-page">
      <h1>Set up a survey</h1>
      <p>The hub did not answer. Check that this device is on its Wi-Fi.</p>
      <p>
        <button type="button" onClick={open}>
          Try again
        </button>
      </p>
      <LoadSurveyFile />
    </article>
  )
}
