import type { SpeciesAnswers } from '../contract/species.ts'
import type { LabelAnswers } from './species/match-labels.ts'

/**
 * Answers about labels are kept among the others: `confirm:Q1O` says which quadrat is meant, `which:Q7` which of several
 * typed labels counts.
 */
export function labelAnswersOf(answers: SpeciesAnswers): Required<LabelAnswers> {
  return { confirmed: answersNamed(answers, 'confirm:'), chosen: answersNamed(answers, 'which:') }
}

function answersNamed(answers: SpeciesAnswers, prefix: string): Record<string, string> {
  return Object.fromEntries(
    Object.entries(answers)
      .filter(([id]) => id.startsWith(prefix))
      .map(([id, answer]) => [id.slice(prefix.length), answer]),
  )
}
