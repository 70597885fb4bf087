import type { StudySummary } from '../../contract/study.ts'
import type { SurveyFile } from '../../contract/survey.ts'
import { localDayOf } from '../../study/summary/local-day.ts'

/** From the first day to the last as ISO 8601: one day, or an interval of days. */
export function dayInterval(days: readonly string[]): string {
  const inOrder = [...days].sort()
  const [first, last] = [inOrder[0] ?? '', inOrder.at(-1) ?? '']
  return first === last ? first : `${first}/${last}`
}

/**
 * The days of a survey at the site: as its file says, else as its readings do.
 * @param otherwise  a day when neither tells
 */
export function surveyDays(survey: SurveyFile, { summaries }: StudySummary, otherwise: string): string {
  if (survey.from) return dayInterval([survey.from, survey.to ?? survey.from])
  const dayOf = localDayOf(survey.site.timeZone)
  const days = summaries.flatMap(({ from, to }) => [dayOf(Date.parse(from)), dayOf(Date.parse(to))])
  return days.length === 0 ? otherwise : dayInterval(days)
}
