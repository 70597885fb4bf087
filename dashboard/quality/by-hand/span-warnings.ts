import type { AddDecision } from '../../../hub/contract/changes.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { quadratsIn } from '../decisions/decision-place.ts'

/** What a person should know before deciding on a span. */
export function spanWarnings(
  survey: Pick<SurveyFile, 'placements' | 'decisions'>,
  quadrat: string,
  decision: Pick<AddDecision, 'probe' | 'from' | 'to'>,
): string[] {
  const warnings: string[] = []
  const elsewhere = quadratsIn(survey, decision).filter((label) => label !== quadrat)
  if (elsewhere.length > 0)
    warnings.push(
      `In this span ${decision.probe} also stood at ${elsewhere.join(', ')}: its readings there are meant too, though not counted here.`,
    )
  const [fromMs, toMs] = [Date.parse(decision.from), Date.parse(decision.to)]
  const before = (survey.decisions ?? []).filter(
    (each) =>
      each.probe === decision.probe &&
      !each.takenBack &&
      Date.parse(each.from) < toMs &&
      Date.parse(each.to) > fromMs,
  )
  if (before.length > 0)
    warnings.push(
      `There is a decision about part of this span already (${before.map(({ id }) => id).join(', ')}). Where they overlap, the newest holds.`,
    )
  return warnings
}
