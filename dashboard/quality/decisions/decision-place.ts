import type { Decision, SurveyFile } from '../../../hub/contract/survey.ts'

/** The quadrats a probe stood at in a span of time, in that order, each once. */
export function quadratsIn(
  survey: Pick<SurveyFile, 'placements'>,
  { probe, from, to }: Pick<Decision, 'probe' | 'from' | 'to'>,
): string[] {
  const placed = survey.placements
    .filter((each) => each.probe === probe)
    .sort((one, other) => Date.parse(one.from) - Date.parse(other.from))
  const found = placed.flatMap((each, index) => {
    const next = placed[index + 1]
    const end = Math.min(
      each.to === undefined ? Number.POSITIVE_INFINITY : Date.parse(each.to),
      next === undefined ? Number.POSITIVE_INFINITY : Date.parse(next.from),
    )
    const isThen = Date.parse(each.from) < Date.parse(to) && end > Date.parse(from)
    return each.quadrat !== null && isThen ? [each.quadrat] : []
  })
  return [...new Set(found)]
}
