import { useEffect, useRef } from 'preact/hooks'
import type { Place } from '../router.ts'

const TITLES: Partial<Record<Place['page'], string>> = {
  boards: 'Boards',
  quarantine: 'Quarantine',
  enter: 'Enter',
  'set-up': 'Set up a survey',
  quality: 'Quality tests',
  decisions: 'Decisions by hand',
  bench: 'Bench',
  'bench-record': 'Calibration record',
  nowhere: 'Not in the notebook',
}

/** On another page: its title in the window, and the keyboard at its beginning, so that a reader hears the change. */
export function usePageTurn(here: Place, surveyTitle: string | undefined): void {
  const title =
    here.page === 'quadrat'
      ? here.quadrat
      : here.page === 'bench-probe'
        ? here.probe
        : here.page === 'survey'
          ? surveyTitle
          : TITLES[here.page]
  useEffect(() => {
    document.title = title ? `${title} – Tussock` : 'Tussock'
  }, [title])
  const isFirst = useRef(true)
  useEffect(() => {
    if (!isFirst.current) document.getElementById('content')?.focus({ preventScroll: true })
    isFirst.current = false
  }, [here])
}
