import type { SpeciesAnswers, SpeciesQuestion } from '../../contract/species.ts'
import { SpeciesMeasure } from '../../contract/species.ts'
import { HubError } from '../../errors.ts'
import type { LabelAnswers } from './match-labels.ts'
import { readNumber } from './read-value.ts'
import { layoutNames } from './recognise-layout.ts'

export interface JoinOptions {
  readings?: string | undefined
  species?: string | undefined
  out?: string | undefined
  long?: string | undefined
  unmatched?: string | undefined
  blank?: string | undefined
  measure?: string | undefined
  'out-of'?: string | undefined
  layout?: string | undefined
  trace?: string | undefined
  sheet?: string | undefined
  survey?: string | undefined
  confirm: string[]
  faults?: string | undefined
  answer: string[]
}

/** Questions that have an option of their own name. */
const ownOptions = ['blank', 'measure', 'out-of', 'layout', 'faults'] as const

/** The option that answers a question, as it is typed. */
export function optionFor(id: string, choice: string): string {
  if ((ownOptions as readonly string[]).includes(id)) return `--${id} ${choice}`
  const option = id.startsWith('confirm:') ? ['--confirm', id.slice('confirm:'.length)] : ['--answer', id]
  return `${option[0]} "${option[1]}=${choice}"`
}

/** Options to answers for the reading of the table; a choice that an option does not have is refused by name. */
export function tableAnswers(values: JoinOptions): SpeciesAnswers {
  oneOf('blank', values.blank, ['absent', 'not-recorded'])
  oneOf('measure', values.measure, SpeciesMeasure.options)
  oneOf('layout', values.layout, layoutNames)
  oneOf('faults', values.faults, ['leave-out'])
  const outOf = values['out-of']
  if (outOf !== undefined && !/^[1-9]\d{0,4}$/.test(outOf))
    throw new HubError('E_COMMAND', `--out-of should be a whole number from 1, it is "${outOf}".`)
  const trace = values.trace === undefined ? 0.5 : readNumber(values.trace)
  if (trace === null || trace <= 0 || trace > 5)
    throw new HubError(
      'E_COMMAND',
      `--trace should be a percentage above 0 and up to 5, it is "${values.trace}".`,
    )
  const answers: SpeciesAnswers = Object.fromEntries(values.answer.map((text) => pairOf('--answer', text)))
  for (const name of [...ownOptions, 'trace'] as const) {
    const value = values[name]
    if (value !== undefined) answers[name] = value
  }
  return answers
}

/** `--confirm` for look-alikes, `--answer "which:Q7=q7"` for labels that mean one quadrat. */
export function labelAnswers(values: JoinOptions): Required<LabelAnswers> {
  const answered = values.answer.map((text) => pairOf('--answer', text))
  const chosen = answered.filter(([id]) => id.startsWith('which:'))
  return {
    confirmed: Object.fromEntries(values.confirm.map((text) => pairOf('--confirm', text))),
    chosen: Object.fromEntries(chosen.map(([id, label]) => [id.slice('which:'.length), label])),
  }
}

/** An answer to no question, or with no such choice, is refused: a slip in typing must not pass for an answer. */
export function checkAnswers(
  answers: SpeciesAnswers,
  given: Required<LabelAnswers>,
  questions: readonly SpeciesQuestion[],
  quadrats: readonly string[],
): void {
  for (const [typed, label] of Object.entries(given.confirmed))
    if (label !== 'no' && !quadrats.includes(label))
      throw new HubError(
        'E_COMMAND',
        `--confirm "${typed}=${label}": the readings have no quadrat "${label}".`,
      )
  for (const [id, choice] of Object.entries(answers)) {
    if (id === 'trace' || id.startsWith('which:') || (ownOptions as readonly string[]).includes(id)) continue
    const question = questions.find((known) => known.id === id)
    if (!id.startsWith('same:') && !question)
      throw new HubError('E_COMMAND', `--answer "${id}=${choice}": there is no question "${id}".`)
    if (question && !question.choices.some(({ value }) => value === choice))
      throw new HubError(
        'E_COMMAND',
        `--answer "${id}=${choice}": the choices are ${question.choices.map(({ value }) => value).join(', ')}.`,
      )
  }
}

function pairOf(option: string, text: string): [string, string] {
  const cut = text.lastIndexOf('=')
  if (cut <= 0 || cut === text.length - 1)
    throw new HubError('E_COMMAND', `${option} is written "THIS=THAT", it is "${text}".`)
  return [text.slice(0, cut).trim(), text.slice(cut + 1).trim()]
}

function oneOf(option: string, value: string | undefined, choices: readonly string[]): void {
  if (value !== undefined && !choices.includes(value))
    throw new HubError('E_COMMAND', `--${option} should be ${choices.join(' or ')}, it is "${value}".`)
}
