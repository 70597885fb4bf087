import type { SpeciesMeasure, SpeciesQuestion } from '../../contract/species.ts'
import { isTickOrCross, plainText, readNumber } from './read-value.ts'

/** What a measure is called, and the unit of its values. */
export const measureFacts: Readonly<Record<SpeciesMeasure, { label: string; unit: string }>> = {
  'cover-percent': { label: 'percentage cover', unit: '%' },
  'grid-hits': { label: 'grid hits, as a percentage of the grid points', unit: '%' },
  presence: { label: 'presence (1) or absence (0)', unit: '' },
  touches: { label: 'marks touched, as a percentage of the marks', unit: '%' },
  count: { label: 'count of individuals', unit: '' },
  'braun-blanquet': { label: 'Braun-Blanquet class, as the mid-point of its cover', unit: '%' },
  domin: { label: 'Domin class, as the mid-point of its cover', unit: '%' },
}

const hints: readonly [SpeciesMeasure, RegExp][] = [
  ['braun-blanquet', /braun/],
  ['domin', /domin/],
  ['grid-hits', /\bhits?\b|grid/],
  ['touches', /touch/],
  ['presence', /presen|absen|tick/],
  ['cover-percent', /cover|percent|%/],
  ['count', /\bcounts?\b|individuals|number/],
]

/**
 * Which measure a table has. A person’s word goes first, then the words over the table, then the cells: ticks only,
 * “7/25”, class letters, a percent sign, a decimal, a number above 10. Small whole numbers could be several things: asked.
 * @param said  the words over the table, and of the heading over the values
 * @param written  every filled value cell, as typed
 */
export function findMeasure(
  said: string,
  written: readonly string[],
  answer: SpeciesMeasure | null,
): { measure: SpeciesMeasure; note: string | null; question: SpeciesQuestion | null } {
  const cells = written.map(plainText)
  const question = measureQuestion(cells, answer)
  if (answer !== null) return { measure: answer, note: null, question }
  const hinted = hints.find(([, pattern]) => pattern.test(said.toLowerCase()))
  const measure = hinted?.[0] ?? measureOfCells(cells)
  if (measure === null) return { measure: 'cover-percent', note: null, question }
  const note = `Values are taken as ${measureFacts[measure].label}, by ${hinted ? 'the words over the table' : 'how they are typed'}.`
  return { measure, note, question: null }
}

function measureOfCells(cells: readonly string[]): SpeciesMeasure | null {
  if (
    cells.length > 0 &&
    cells.every((text) => isTickOrCross(text) || /^(?:0|yes|no|y|n|true|false)$/.test(text))
  )
    return cells.every((text) => text === '0') ? null : 'presence'
  if (cells.some((text) => /^\d+\s*\/\s*\d+$/.test(text))) return 'grid-hits'
  if (cells.some((text) => /^(?:r|2[mab])$/.test(text))) return 'braun-blanquet'
  const isPercent = (text: string) => {
    const number = readNumber(text)
    return /%$|^</.test(text) || (number !== null && (number > 10 || !Number.isInteger(number)))
  }
  return cells.some(isPercent) ? 'cover-percent' : null
}

function measureQuestion(cells: readonly string[], answer: SpeciesMeasure | null): SpeciesQuestion {
  const numbers = cells.flatMap((text) => readNumber(text) ?? [])
  const most = Math.max(0, ...numbers)
  const possible: SpeciesMeasure[] = ['cover-percent', 'domin', 'grid-hits', 'touches', 'count']
  if (most <= 5) possible.push('braun-blanquet')
  if (most <= 1) possible.push('presence')
  return {
    id: 'measure',
    text: 'The values are small whole numbers. What was measured?',
    choices: possible.map((value) => ({ value, text: measureFacts[value].label })),
    answer,
  }
}
