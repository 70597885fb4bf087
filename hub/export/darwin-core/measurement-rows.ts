import type { QuadratSummary, StudySummary } from '../../contract/study.ts'
import type { SurveyFile } from '../../contract/survey.ts'
import { methodText } from '../../study/factors.ts'
import { localDayOf } from '../../study/summary/local-day.ts'
import { quantityWords } from '../quantity-words.ts'
import { significant } from '../significant.ts'
import type { MeasurementRow } from './archive-terms.ts'
import { compactDate, type EventBook, identifier } from './event-book.ts'
import { dayInterval } from './event-dates.ts'

/** Of values; more than a class’s probes can tell apart. */
const DIGITS = 6

/** A factor at a quadrat is a measurement of its event; the accuracy is the standard uncertainty (k = 1) of it. */
export function measurementRows(
  survey: SurveyFile,
  summary: StudySummary,
  book: EventBook,
): MeasurementRow[] {
  const dayOf = localDayOf(survey.site.timeZone)
  return summary.summaries.flatMap((each): MeasurementRow[] => {
    const date = dayInterval([dayOf(Date.parse(each.from)), dayOf(Date.parse(each.to))])
    const words = quantityWords(each.quantity)
    const eventID = book.atQuadrat(each.quadrat, date, `${words}: ${each.n} of ${each.received} values`)
    const key = [each.quantity, methodText(each.method), each.kind]
    const row = (name: string, more: Partial<MeasurementRow>): MeasurementRow => ({
      eventID,
      measurementID: identifier(survey.id, each.quadrat, compactDate(date), ...key, name),
      measurementMethod: methodOf(each),
      measurementDeterminedDate: `${each.from}/${each.to}`,
      ...more,
    })
    return [
      row(each.statistic, {
        measurementType: `${words} (${each.statistic})`,
        measurementValue: significant(each.value, DIGITS),
        measurementUnit: unitText(each.unit),
        measurementAccuracy: standardUncertainty(each),
        measurementRemarks: spreadText(each),
      }),
      ...(each.openSkyPercent === null
        ? []
        : [
            row('open-sky', {
              measurementType: `${words} as a share of open sky at the same moments (median)`,
              measurementValue: significant(each.openSkyPercent, DIGITS),
              measurementUnit: '%',
            }),
          ]),
    ]
  })
}

/** Spread between values, probe and method together; empty when the spread is not known. */
function standardUncertainty(each: QuadratSummary): number | null {
  if (each.samplingUncertainty === null) return null
  const together = Math.hypot(
    each.samplingUncertainty,
    each.probeUncertainty ?? 0,
    each.methodUncertainty ?? 0,
  )
  return significant(together, 3)
}

function methodOf(each: QuadratSummary): string {
  return [
    `${each.statistic} of ${each.n} clean ${each.kind === 'spot' ? 'insertions of a carried meter' : 'logged readings'}`,
    methodText(each.method),
    `probe ${each.probes.join(', ')}`,
    `calibration ${each.calibrations.join(', ')}`,
  ]
    .filter((part) => part !== '')
    .join('; ')
}

/** How far apart the values were. */
export function spreadText({ low, high }: { low: number; high: number }): string {
  return `lowest ${significant(low, DIGITS)}, highest ${significant(high, DIGITS)}`
}

/** Units as the International System writes them. */
export function unitText(unit: string): string {
  if (unit === 'Cel') return '°C'
  return unit === '/' ? '1' : unit
}
