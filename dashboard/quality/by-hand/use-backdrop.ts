import { useMemo } from 'preact/hooks'
import type { ChartMark, TimeSpan } from '../../../hub/contract/reading.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import type { Backdrop } from '../../charts/backdrop.ts'
import { drawnSpan, type Marked } from './span.ts'

/** What lies behind the line of one probe. */
export function useBackdrop(
  survey: SurveyFile,
  probe: string,
  nights: readonly TimeSpan[],
  marks: readonly ChartMark[],
  marked: Marked,
): Backdrop {
  return useMemo(
    () => ({
      nights,
      marksMs: marks.map(({ timeMs }) => timeMs),
      marked: drawnSpan(marked),
      decided: (survey.decisions ?? [])
        .filter((each) => each.probe === probe && !each.takenBack)
        .map(({ from, to, action }) => ({ fromMs: Date.parse(from), toMs: Date.parse(to), action })),
    }),
    [nights, marks, marked, survey, probe],
  )
}
