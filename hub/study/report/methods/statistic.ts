import type { Factor } from '../../factors.ts'
import { notebook, type Sentence } from '../links.ts'
import { listed } from '../number-text.ts'
import type { ReportFacts } from '../report-facts.ts'
import { fromToText, zoneOrUtc } from '../time-text.ts'

/** Which number stands for a quadrat and why, and how plants were compared with factors. */
export function statisticSentences({ survey, material, wish, species }: ReportFacts): Sentence[] {
  const href = notebook.study(survey.id)
  const { factors, summary, statistics } = material
  const byReason = new Map<string, string[]>()
  for (const factor of factors) {
    const reason = reasonOf(factor)
    byReason.set(reason, [...(byReason.get(reason) ?? []), factor.name])
  }
  const { window } = summary
  const texts = [
    ...[...byReason].map(([reason, names]) => `${listed(names)}: ${reason}.`),
    ...(window
      ? [
          `Only the time in which every standing probe was logging was used, ${fromToText(window.from, window.to, zoneOrUtc(survey.site.timeZone))}, so that hours are compared with the same hours.`,
        ]
      : []),
    ...(wish.withHydrogenIons
      ? [
          'The pH of the mean hydrogen-ion concentration is printed as well because it was asked for; it is right for mixed waters, not for soil.',
        ]
      : []),
    ...(species && statistics.pairs.length > 0
      ? [
          'Each factor was compared with each species by Spearman’s rank correlation (mid-ranks for ties), because cover is bounded, often tied and seldom follows a straight line.',
          `With ${statistics.tests} tests, about ${Number((0.05 * statistics.tests).toPrecision(2))} would seem significant by chance alone at p ≤ 0.05; p is therefore also given after Holm’s correction for the number of tests.`,
        ]
      : []),
    ...(statistics.zones.length > 0
      ? ['Zones were compared by Mann–Whitney (two) or Kruskal–Wallis (more), by ranks for the same reason.']
      : []),
  ]
  return texts.map((text) => ({ text, href }))
}

function reasonOf({ name, quantity, statistic }: Factor): string {
  if (name.includes('% of open sky'))
    return 'the median percentage of the open sky read at the same moment stands for a quadrat, because light in lux through a morning compares clouds, not quadrats'
  if (name.includes('difference from the fixed probe'))
    return 'the mean difference from a probe that stood still, at the same minutes, stands for a quadrat, because soil warms while a class walks'
  if (quantity === 'soil_ph')
    return 'the median stands for a quadrat; pH is averaged as pH and not as hydrogen ions, because mixed soils behave so'
  if (statistic === 'median')
    return 'the median stands for a quadrat, because a few bright moments would pull a mean'
  return 'the mean stands for a quadrat'
}
