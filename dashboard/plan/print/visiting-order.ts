import type { Quadrat, SurveyFile } from '../../../hub/contract/survey.ts'

/** Quadrats of a group (all when it is empty) in the order of visiting; lifted ones are left out. */
export function visitingOrder(survey: SurveyFile, group: string): Quadrat[] {
  const own = survey.groups?.find(({ label }) => label === group)?.quadrats
  const order = own ?? survey.walk ?? []
  const turns = new Map(order.map((label, turn) => [label, turn]))
  const turnOf = ({ label }: Quadrat) => turns.get(label) ?? order.length
  return survey.quadrats
    .filter(({ label, lifted }) => lifted === undefined && (own === undefined || own.includes(label)))
    .map((quadrat, index) => ({ quadrat, index }))
    .sort((one, other) => turnOf(one.quadrat) - turnOf(other.quadrat) || one.index - other.index)
    .map(({ quadrat }) => quadrat)
}
