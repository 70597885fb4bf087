import { settingOf } from '../../../quality/settings.ts'
import { QUALITY_TESTS } from '../../../quality/tests.ts'
import { notebook, type Sentence } from '../links.ts'
import { counted, fixed, listed, lowered } from '../number-text.ts'
import { quantityLabel } from '../quantity-name.ts'
import { reasonTitle } from '../reason-title.ts'
import type { ReportFacts } from '../report-facts.ts'

/** What “clean” means, how many readings are, the tests that ran and every limit that is not the default. */
export function qualitySentences({ survey, clean, probes }: ReportFacts): Sentence[] {
  const why = clean.leftOut.map(({ reason, n }) => `${counted(n, 'reading')} ${reasonTitle(reason)}`)
  const decisions = (survey.decisions ?? []).filter(({ takenBack }) => !takenBack)
  return [
    {
      text: 'Only clean readings were used: those at a quadrat, at a trusted time, under a calibration that passed, steady where the meter was carried, not found suspect or failed by a test unless a person accepted them, and not left out by hand.',
      href: notebook.quality(survey.id),
    },
    {
      text: `${fixed(clean.clean, 0)} of ${counted(clean.all, 'reading')} were used${why.length === 0 ? '' : `; left out: ${why.join('; ')}`}.`,
      href: notebook.survey(survey.id),
    },
    ...testSentences(survey, [...new Set(probes.map(({ quantity }) => quantity))]),
    ...limitSentences(survey),
    ...(decisions.length === 0
      ? []
      : [
          {
            text: `${counted(decisions.length, 'decision')} ${decisions.length === 1 ? 'was' : 'were'} made by hand; they are listed under “What was left out”.`,
            href: notebook.decisions(survey.id),
          },
        ]),
  ]
}

function testSentences(survey: ReportFacts['survey'], quantities: readonly string[]): Sentence[] {
  return quantities.flatMap((quantity) => {
    const tests = QUALITY_TESTS.filter((test) => settingOf(test, survey, quantity) !== null)
    if (tests.length === 0) return []
    return [
      {
        text: `Tests of ${lowered(quantityLabel(quantity))}: ${tests.map(({ title }) => title).join(', ')}.`,
        href: notebook.quality(survey.id),
      },
    ]
  })
}

function limitSentences(survey: ReportFacts['survey']): Sentence[] {
  const changed = Object.entries(survey.quality ?? {}).flatMap(([test, byQuantity]) =>
    Object.entries(byQuantity).map(([quantity, limits]) => ({
      text: `${reasonTitle(test)} of ${lowered(quantityLabel(quantity))} was ${limits === 'off' ? 'switched off' : `set to ${limitText(limits)}`}.`,
      href: notebook.quality(survey.id, test),
    })),
  )
  if (changed.length > 0) return [{ text: 'Limits that differ from the defaults:', href: '' }, ...changed]
  return [{ text: 'All limits are the defaults of the tool.', href: notebook.quality(survey.id) }]
}

/** “largest rise 5 per minute”: fields as words, values as they are. */
function limitText(limits: Readonly<Record<string, unknown>>): string {
  return listed(
    Object.entries(limits).map(([name, value]) => {
      const spaced = name.replaceAll(/([A-Z])/g, (letter) => ` ${letter.toLowerCase()}`)
      return `${spaced} ${Array.isArray(value) ? value.join(' to ') : String(value)}`
    }),
  )
}
