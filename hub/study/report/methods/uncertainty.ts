import { coverageFactor } from '../../../../calibration/index.ts'
import type { QuadratSummary } from '../../../contract/study.ts'
import { notebook, type Sentence } from '../links.ts'
import { fixed, spanText } from '../number-text.ts'
import { quantityHow } from '../quantity-name.ts'
import type { ReportFacts } from '../report-facts.ts'

/** Degrees of freedom and coverage factor of a mean; of one that rests on stated limits alone infinity and 1.96. */
export function coverageOf({
  expanded,
  degreesOfFreedom,
}: QuadratSummary): { freedom: number; k: number } | null {
  if (expanded === null) return null
  const freedom = degreesOfFreedom ?? Number.POSITIVE_INFINITY
  return { freedom, k: coverageFactor(freedom) }
}

export function freedomText(freedom: number): string {
  if (!Number.isFinite(freedom) || freedom >= 1000) return '∞'
  return fixed(freedom, freedom < 100 ? 1 : 0)
}

/** How the ± came about: what is in it, with how many degrees of freedom, and so which k; never 2 by habit. */
export function uncertaintySentences({ survey, material }: ReportFacts): Sentence[] {
  const href = notebook.study(survey.id)
  const groups = new Map<string, QuadratSummary[]>()
  for (const each of material.summary.summaries) {
    const key = quantityHow(each.quantity, each.method)
    groups.set(key, [...(groups.get(key) ?? []), each])
  }
  const texts = [...groups].flatMap(([name, summaries]) => ofGroup(name, summaries))
  if (texts.length === 0) return []
  return [
    'The ± is half of an interval that holds the true mean of a quadrat 95 times in 100. It combines the spread between values with the standard uncertainty of probe and calibration, which more values do not make smaller (GUM, with effective degrees of freedom); its coverage factor k follows from the degrees of freedom and is not taken as 2.',
    ...texts,
  ].map((text) => ({ text, href }))
}

function ofGroup(name: string, summaries: readonly QuadratSummary[]): string[] {
  const covered = summaries.flatMap((each) => coverageOf(each) ?? [])
  const counts = spanText(
    summaries.map(({ n }) => n),
    (n) => fixed(n, 0),
  )
  const kind = summaries.every((each) => each.kind === 'spot') ? 'insertions' : 'readings'
  const single = summaries.length - covered.length
  const alone =
    single === 0
      ? ''
      : ` For ${single} of ${summaries.length} quadrats there were too few independent values to give a ±.`
  if (covered.length === 0) return [`${name}: ${counts} ${kind} at a quadrat.${alone}`]
  const freedom = spanText(
    covered.map((each) => each.freedom),
    freedomText,
  )
  const k = spanText(
    covered.map((each) => each.k),
    (each) => fixed(each, 2),
  )
  const method = summaries.find(({ methodUncertainty }) => methodUncertainty !== null)?.methodUncertainty
  const inserted =
    method == null
      ? ''
      : ` Pushing the electrode into the soil adds a standard uncertainty of ${fixed(method, 2)}.`
  const likeness =
    kind === 'readings'
      ? ' Readings that follow each other are alike, so they count as fewer independent ones.'
      : ''
  return [
    `${name}: ${counts} ${kind} at a quadrat, ${freedom} degrees of freedom, so k = ${k}.${likeness}${inserted}${alone}`,
  ]
}
