import type { SpeciesQuestion } from '../../contract/species.ts'
import { isNumberOnly, lookAlikeKey, quadratKey } from './quadrat-label.ts'

export interface LabelMatch {
  survey: string
  typed: string
  /** how the typed label was understood; null when it is the same */
  repair: string | null
}

/** Nothing is dropped: every label of both sides is in exactly one of matched, suggested, doubled and the two unmatched. */
export interface LabelMatches {
  matched: LabelMatch[]
  /** look-alikes that await a person’s word */
  suggested: { survey: string; typed: string; why: string }[]
  /** several typed labels that mean one quadrat: none of them is joined before a person has said which */
  doubled: { survey: string; typed: string[] }[]
  unmatchedSurvey: string[]
  unmatchedTyped: string[]
  questions: SpeciesQuestion[]
}

export interface LabelAnswers {
  /** typed label → the survey label it means, as a person has confirmed; or `no` when it means none */
  confirmed?: Readonly<Record<string, string>>
  /** survey label → the one typed label that counts for it */
  chosen?: Readonly<Record<string, string>>
}

/**
 * Labels typed by groups to the labels of the survey. Case, spaces, “quadrat”, zeros in front and full-width digits are
 * repaired, each repair listed. Letters that look like digits are suggested only, and wait for a confirmation.
 * @param survey  labels on the side of the readings, each once
 * @param typed  labels on the side of the species, each once
 */
export function matchLabels(
  survey: readonly string[],
  typed: readonly string[],
  answers: LabelAnswers = {},
): LabelMatches {
  const claims = new Map<string, LabelMatch[]>()
  const suggested: LabelMatches['suggested'] = []
  const unmatchedTyped: string[] = []
  for (const label of typed) {
    const said = confirmedAs(label, answers)
    const found = said === 'no' ? null : findSurveyLabel(label, survey, said)
    if (said === 'no') unmatchedTyped.push(label)
    else if (found) claims.set(found.survey, [...(claims.get(found.survey) ?? []), found])
    else {
      const alike = survey.filter((known) => lookAlikeKey(known) === lookAlikeKey(label))
      if (alike.length === 1)
        suggested.push({ typed: label, survey: alike[0]!, why: 'a letter that looks like a digit' })
      else unmatchedTyped.push(label)
    }
  }
  const matched: LabelMatch[] = []
  const doubled: LabelMatches['doubled'] = []
  for (const label of survey) {
    const claimants = claims.get(label) ?? []
    const chosen = claimants.find((claim) => claim.typed === answers.chosen?.[label])
    if (claimants.length === 1) matched.push(claimants[0]!)
    else if (chosen) {
      matched.push(chosen)
      unmatchedTyped.push(...claimants.filter((claim) => claim !== chosen).map((claim) => claim.typed))
    } else if (claimants.length > 1)
      doubled.push({ survey: label, typed: claimants.map((claim) => claim.typed) })
  }
  const taken = new Set([...claims.keys(), ...suggested.map((suggestion) => suggestion.survey)])
  return {
    matched,
    suggested,
    doubled,
    unmatchedSurvey: survey.filter((label) => !taken.has(label)),
    unmatchedTyped,
    questions: [...suggested.map(confirmQuestion), ...doubled.map(chooseQuestion)],
  }
}

function confirmedAs(typed: string, { confirmed = {} }: LabelAnswers): string | undefined {
  return Object.hasOwn(confirmed, typed) ? confirmed[typed] : undefined
}

function findSurveyLabel(
  typed: string,
  survey: readonly string[],
  said: string | undefined,
): LabelMatch | null {
  if (said !== undefined && survey.includes(said))
    return { survey: said, typed, repair: `“${typed}” is ${said}: confirmed by hand` }
  if (survey.includes(typed)) return { survey: typed, typed, repair: null }
  const alike = survey.filter((label) => quadratKey(label) === quadratKey(typed))
  if (alike.length !== 1) return null
  const how = isNumberOnly(typed) ? 'number only' : 'typed differently'
  return { survey: alike[0]!, typed, repair: `“${typed}” is ${alike[0]!}: ${how}` }
}

function confirmQuestion({ survey, typed }: LabelMatches['suggested'][number]): SpeciesQuestion {
  return {
    id: `confirm:${typed}`,
    text: `“${typed}” looks like ${survey}. Is it?`,
    choices: [
      { value: survey, text: `yes, it is ${survey}` },
      { value: 'no', text: 'no, leave it unmatched' },
    ],
    answer: null,
  }
}

function chooseQuestion({ survey, typed }: LabelMatches['doubled'][number]): SpeciesQuestion {
  return {
    id: `which:${survey}`,
    text: `${typed.map((label) => `“${label}”`).join(' and ')} both mean ${survey}. Which one counts?`,
    choices: typed.map((label) => ({ value: label, text: `“${label}”` })),
    answer: null,
  }
}
