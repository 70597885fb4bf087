import { ofSurvey } from '../../client.ts'
import type { StudyWish } from '../study-wish.ts'

export const coordinateChoices = [
  { value: 'blurred', label: 'rounded to about a kilometre' },
  { value: 'none', label: 'left out' },
  { value: 'exact', label: 'exact' },
] as const
export type Coordinates = (typeof coordinateChoices)[number]['value']

export interface ReportWish {
  aim: string
  /** results of the tests are printed */
  hasVerdicts: boolean
  coordinates: Coordinates
  window: StudyWish['window']
  hydrogenIons: boolean
  /** a last page with every text that people have typed, to be read before sharing */
  hasCheckPage: boolean
}

/** Where the hub makes the report, as a page or as PDF. */
export function reportAddress(survey: string, kind: 'html' | 'pdf', wish: ReportWish): string {
  const query = new URLSearchParams({ coordinates: wish.coordinates, window: wish.window })
  if (wish.hydrogenIons) query.set('hydrogenIons', 'yes')
  if (!wish.hasVerdicts) query.set('verdicts', 'no')
  if (wish.hasCheckPage) query.set('check', 'yes')
  if (wish.aim.trim() !== '') query.set('aim', wish.aim.trim())
  return `${ofSurvey(survey)}/report.${kind}?${query}`
}
