import { appendixSection } from './appendix-section.ts'
import { freeTextsSection } from './free-texts-section.ts'
import { leftOutSection } from './left-out-section.ts'
import { limitationsSection } from './limitations-section.ts'
import { methodsSection } from './methods/methods-section.ts'
import type { ReportFacts } from './report-facts.ts'
import type { ReportModel, ReportSection } from './report-model.ts'
import { resultsSection } from './results/results-section.ts'
import { aimSection, daysText, siteSection } from './site-section.ts'

/** From a study to everything that is printed. The tool writes the method; the conclusion is left to the class. */
export function buildReport(facts: ReportFacts): ReportModel {
  const { survey, wish } = facts
  const days = daysText(survey)
  return {
    title: survey.title,
    subtitle: days === '' ? survey.site.name : `${survey.site.name}, ${days}`,
    sections: [
      aimSection(survey, wish.aim),
      siteSection(survey, wish.coordinates),
      methodsSection(facts),
      resultsSection(facts),
      conclusionSection,
      leftOutSection(facts),
      limitationsSection(facts),
      appendixSection(facts),
      ...(wish.isForChecking ? [freeTextsSection(facts)] : []),
    ],
    foot: `${survey.title}. Written by Tussock ${facts.version} from the readings of the survey.`,
  }
}

const conclusionSection: ReportSection = {
  title: 'What we conclude',
  blocks: [
    {
      kind: 'ruled',
      title: 'In our own words: what the results show, what they do not show, and why',
      lines: 12,
    },
  ],
  beginsPage: false,
}
