import { shownUnit } from '../../pictures/shown-unit.ts'
import { notebook, type Sentence } from '../links.ts'
import { significant } from '../number-text.ts'
import type { ReferenceFacts, ReportFacts } from '../report-facts.ts'
import { fromToText, zoneOrUtc } from '../time-text.ts'

/** Sky and wind as far as probes measured them; what nobody measured is said to be unknown. */
export function weatherSentences({ survey, openSky, windMast }: ReportFacts): Sentence[] {
  const zone = zoneOrUtc(survey.site.timeZone)
  const ofProbe = (facts: ReferenceFacts, what: string): Sentence => {
    const { described, unit, probe, fromMs, toMs } = facts
    const { factor, text } = shownUnit(unit)
    const shown = (value: number) => significant(value * factor, 3, text)
    const span = fromToText(new Date(fromMs).toISOString(), new Date(toMs).toISOString(), zone)
    return {
      text: `${what} read between ${shown(described.minimum)} and ${shown(described.maximum)} (median ${shown(described.median)}, ${span}).`,
      href: notebook.records(survey.id, probe),
    }
  }
  const unknown = [
    openSky ? null : 'the sky',
    windMast ? null : 'the wind above the vegetation',
    'air temperature and rain',
  ]
  return [
    ...(openSky ? [ofProbe(openSky, 'The light of the open sky')] : []),
    ...(windMast ? [ofProbe(windMast, 'The wind at the mast')] : []),
    {
      text: `Not measured by the tool: ${unknown.filter((each) => each !== null).join(', ')}.`,
      href: notebook.survey(survey.id),
    },
  ]
}
