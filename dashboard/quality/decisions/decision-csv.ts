import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { csvText } from '../csv/csv.ts'
import { quadratsIn } from './decision-place.ts'

const HEADING = [
  ...['id', 'made_at', 'by', 'probe', 'quantity', 'quadrat', 'from', 'to', 'action', 'reason'],
  ...['taken_back_at', 'taken_back_by'],
]

/** Every decision of a survey as a table, the oldest first. Times are as stored, with their zone; `to` is not included. */
export function decisionsCsv(survey: Pick<SurveyFile, 'decisions' | 'probes' | 'placements'>): string {
  const quantities = new Map(survey.probes.map(({ id, quantity }) => [id, quantity]))
  const rows = (survey.decisions ?? []).map((each) => [
    each.id,
    each.at,
    each.by ?? '',
    each.probe,
    quantities.get(each.probe) ?? '',
    quadratsIn(survey, each).join(' '),
    each.from,
    each.to,
    each.action,
    each.reason,
    each.takenBack?.at ?? '',
    each.takenBack?.by ?? '',
  ])
  return csvText([HEADING, ...rows])
}
