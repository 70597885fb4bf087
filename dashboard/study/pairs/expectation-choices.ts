import type { StudyPair } from '../../../hub/contract/study.ts'

export interface ExpectationChoice {
  what: string
  label: string
}

export function pairChoices(factor: string, species: string): ExpectationChoice[] {
  return [
    { what: 'rises', label: `more ${species} where ${factor} is higher` },
    { what: 'falls', label: `less ${species} where ${factor} is higher` },
    { what: 'hump', label: `most ${species} in the middle of the range` },
    { what: 'none', label: 'nothing to do with each other' },
  ]
}

export const zoneChoices: readonly ExpectationChoice[] = [
  { what: 'differ', label: 'the zones differ' },
  { what: 'alike', label: 'the zones are alike' },
]

const LEVEL = 0.05

/** What was expected beside what came out, without a word on who was right about the habitat. */
export function besideResult(what: string, { rho, p }: Pick<StudyPair, 'rho' | 'p'>): string {
  if (rho === null || p === null) return 'There is no test to compare it with.'
  if (what === 'hump')
    return 'A rank correlation cannot show a hump: judge by the picture whether there is one.'
  const isClear = p <= LEVEL
  if (what === 'none')
    return isClear
      ? 'There is a clearer order than you expected.'
      : 'No clear order was found; that is not yet a proof that there is none.'
  if (!isClear) return 'No order is clear enough to speak for what you expected, or against it.'
  return rho > 0 === (what === 'rises')
    ? 'The order goes the way you expected.'
    : 'The order goes the other way than you expected. Which reason might there be?'
}
