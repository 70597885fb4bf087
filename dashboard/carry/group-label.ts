import type { SurveyFile } from '../../hub/contract/survey.ts'

/** Up to three letters, a number, perhaps a letter: `G3`, `7`, `Y9 4b`. A name of a person does not pass. */
const TYPED_LABEL = /^[A-Za-z]{0,3}(\d{0,2}[ -])?\d{1,3}[A-Za-z]?$/

export function isGroupLabel(text: string): boolean {
  return TYPED_LABEL.test(text.trim())
}

/** Quadrats that are this group’s to visit; empty when the survey does not say. */
export function quadratsOfGroup(survey: Pick<SurveyFile, 'groups'>, group: string | null): string[] {
  return survey.groups?.find(({ label }) => label === group)?.quadrats ?? []
}

/** The groups that have a quadrat to visit. */
export function groupsOfQuadrat(survey: Pick<SurveyFile, 'groups'>, quadrat: string): string[] {
  return (survey.groups ?? []).filter(({ quadrats }) => quadrats.includes(quadrat)).map(({ label }) => label)
}

/** Whether a quadrat is another group’s and not this one’s: it is never shown as its own. */
export function isOfOthers(
  survey: Pick<SurveyFile, 'groups'>,
  group: string | null,
  quadrat: string,
): boolean {
  const owners = groupsOfQuadrat(survey, quadrat)
  return owners.length > 0 && (group === null || !owners.includes(group))
}
