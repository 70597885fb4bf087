import type { SpeciesAnswers, SpeciesQuestion, SpeciesTable } from '../../../hub/contract/species.ts'
import { layoutWords } from './measure-words.ts'
import { nearSpellings } from './near-spellings.ts'

export interface AskedQuestion {
  id: string
  text: string
  /** empty: a whole number is asked for, and kept under `id` */
  choices: { text: string; answers: SpeciesAnswers }[]
}

/**
 * What only a person can say about a sheet and has not said yet, in the order to be asked: how it is laid out, what its
 * values are, which quadrat a label means, and at last whether two spellings are one species.
 * @param labelQuestions  of the join; they may repeat those of the table
 */
export function openQuestions(
  table: SpeciesTable,
  labelQuestions: readonly SpeciesQuestion[],
  answers: SpeciesAnswers,
): AskedQuestion[] {
  const all = [...table.questions, ...labelQuestions]
  const open = all.filter(
    ({ id, answer }, place) => answer === null && all.findIndex((each) => each.id === id) === place,
  )
  return [
    ...open.map(({ id, text, choices }) => ({
      id,
      text,
      choices: choices.map(({ value, text: said }) => ({ text: said, answers: { [id]: value } })),
    })),
    ...spellingQuestions(table.notes, answers),
  ]
}

function spellingQuestions(notes: readonly string[], answers: SpeciesAnswers): AskedQuestion[] {
  return nearSpellings(notes)
    .filter(([, other]) => answers[`same:${other}`] !== other)
    .map(([one, other]) => ({
      id: `same:${other}`,
      text: `“${one}” and “${other}” are spelled almost alike. Are they one species?`,
      choices: [
        { text: `yes, it is “${one}”`, answers: { [`same:${other}`]: one } },
        { text: `yes, it is “${other}”`, answers: { [`same:${one}`]: other } },
        { text: 'no, two species', answers: { [`same:${other}`]: other } },
      ],
    }))
}

export interface GivenAnswer {
  id: string
  text: string
}

/** What was answered, a sentence each: in the question's own words where it is still known. */
export function givenAnswers(answers: SpeciesAnswers, questions: readonly SpeciesQuestion[]): GivenAnswer[] {
  return Object.entries(answers).map(([id, answer]) => {
    const question = questions.find((each) => each.id === id)
    const said = question?.choices.find(({ value }) => value === answer)?.text ?? answer
    return { id, text: question ? `${question.text} — ${said}` : inWords(id, answer) }
  })
}

function inWords(id: string, answer: string): string {
  const [kind = '', ...rest] = id.split(':')
  const name = rest.join(':')
  switch (kind) {
    case 'confirm':
      return answer === 'no' ? `“${name}” is no quadrat of this survey.` : `“${name}” is ${answer}.`
    case 'which':
      return `For ${name} the one typed as “${answer}” counts.`
    case 'twice':
      return `${name}, typed more than once: ${answer === 'mean' ? 'their mean' : answer === 'none' ? 'left out' : `the one at ${answer}`}.`
    case 'same':
      return answer === name ? `“${name}” is a species of its own.` : `“${name}” is “${answer}”.`
    case 'layout':
      return `The sheet is laid out as: ${layoutWords[answer] ?? answer}.`
    case 'sheet':
      return `The sheet “${answer}” of the workbook is read.`
    case 'trace':
      return `A trace (+) stands as ${answer} %.`
    case 'out-of':
      return `Hits are out of ${answer}.`
    default:
      return `${id}: ${answer}`
  }
}
