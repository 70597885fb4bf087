import type { SpeciesAnswers, SpeciesQuestion } from '../../contract/species.ts'
import { firstFew } from './read-sheet.ts'

/** How many cells wait for each answer. */
export interface Asked {
  blank: number
  'out-of': number
  cross: number
  formula: string[]
}

/** Each is asked once for the table, and only if a cell waits for it or it was answered before. */
export function tableQuestions(asked: Asked, answers: SpeciesAnswers): SpeciesQuestion[] {
  const ask = (
    isNeeded: boolean,
    id: string,
    text: string,
    choices: [string, string][],
  ): SpeciesQuestion[] =>
    isNeeded
      ? [
          {
            id,
            text,
            choices: choices.map(([value, said]) => ({ value, text: said })),
            answer: known(answers[id], choices),
          },
        ]
      : []
  return [
    ...ask(
      asked.blank > 0,
      'blank',
      `${asked.blank === 1 ? '1 value is' : `${asked.blank} values are`} blank (or a dash, or missing from the list). Do blanks mean absent?`,
      [
        ['absent', 'yes: looked for, and not there'],
        ['not-recorded', 'no: not recorded'],
      ],
    ),
    ...ask(asked['out-of'] > 0, 'out-of', 'Hits out of how many points (or marks) in each quadrat?', []),
    ...ask(asked.cross > 0, 'cross', 'The table has ticks and crosses. What does a cross mean?', [
      ['present', 'the species is there'],
      ['absent', 'the species is not there'],
    ]),
    ...ask(
      asked.formula.length > 0,
      'formula',
      `${firstFew(asked.formula)}: a formula without a saved result. Open the file in the spreadsheet and save it again.`,
      [['not-recorded', 'go on without them, as not recorded']],
    ),
  ]
}

function known(answer: string | undefined, choices: readonly [string, string][]): string | null {
  if (answer === undefined) return null
  return choices.length === 0 || choices.some(([value]) => value === answer) ? answer : null
}

/** A fault is never passed over in silence: the sheet is corrected, or a person says to go on without those cells. */
export function faultsQuestion(count: number, answers: SpeciesAnswers): SpeciesQuestion[] {
  if (count === 0) return []
  return [
    {
      id: 'faults',
      text: `${count} ${count === 1 ? 'cell' : 'cells'} cannot be used. Best is to correct the sheet and read it again.`,
      choices: [{ value: 'leave-out', text: 'go on without them, as not recorded' }],
      answer: answers['faults'] === 'leave-out' ? 'leave-out' : null,
    },
  ]
}
