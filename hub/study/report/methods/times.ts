import { notebook, type Sentence } from '../links.ts'
import { counted, significant } from '../number-text.ts'
import type { ReportFacts } from '../report-facts.ts'
import { fromToText, lengthText, zoneOrUtc } from '../time-text.ts'

/** How times are written, and every correction of a board's clock. */
export function timeSentences({ survey }: ReportFacts): Sentence[] {
  const zone = zoneOrUtc(survey.site.timeZone)
  const corrections = survey.clockCorrections ?? []
  return [
    {
      text: `Times are kept in UTC and written here in ${zone === 'UTC' ? 'UTC' : zone}.`,
      href: notebook.survey(survey.id),
    },
    ...(corrections.length === 0
      ? [{ text: 'No board’s clock was corrected.', href: notebook.boards() }]
      : [
          {
            text: `${counted(corrections.length, 'correction')} of clocks:`,
            href: notebook.placements(survey.id),
          },
        ]),
    ...corrections.map(({ board, from, to, offsetSeconds, errorSeconds, reason }) => ({
      text: `readings of ${board} (${fromToText(from, to, zone)} by its own clock) were moved by ${offsetSeconds < 0 ? '−' : '+'}${lengthText(Math.abs(offsetSeconds))}${errorSeconds === undefined ? '' : `, known to ${significant(errorSeconds, 2, 's')}`}: ${reason}.`,
      href: notebook.placements(survey.id),
    })),
  ]
}
