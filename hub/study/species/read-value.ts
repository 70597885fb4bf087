import type { SpeciesMeasure } from '../../contract/species.ts'
import { braunBlanquetClasses, coverClass, dominClasses } from './cover-classes.ts'
import type { SheetCell } from './sheet-grid.ts'

export interface ValueSettings {
  /** what “+” and “<1” stand for, % */
  tracePercent: number
  /** grid points, or marks, of one quadrat; null when nobody has said */
  outOf: number | null
  /** what a cross means in a table of ticks; null when nobody has said */
  cross: 'present' | 'absent' | null
}

/** `repair` is told only where something was taken for something else. */
export type ReadValue =
  | { state: 'value'; value: number; present: boolean; repair?: string }
  | { state: 'blank' }
  | { state: 'not-recorded' }
  | { state: 'ask'; about: 'out-of' | 'cross' | 'formula' }
  | { state: 'fault'; message: string }

const notRecorded = new Set(['n/a', 'na', 'n.a.', 'nr', 'n.r.', 'not recorded', 'not done', 'missing', '?'])
const dashes = new Set(['', '-', '–', '—', '.'])
const ticks = new Set(['✓', '✔', '☑', 'yes', 'y', 'true', 'p', 'present', '1', '+'])
const crosses = new Set(['x', '×', '✗', '✘', '☒'])
const absences = new Set(['0', 'no', 'n', 'false', 'a', 'absent', 'none'])

/**
 * What one typed cell says, under the measure of its table. A dash or a dot stands for a blank, which is neither zero nor
 * absent until a person has said so. Nothing outside what the measure can be is let through.
 */
export function readValue(cell: SheetCell, measure: SpeciesMeasure, settings: ValueSettings): ReadValue {
  const text = plainText(cell.text)
  if (cell.kind === 'formula' && text === '') return { state: 'ask', about: 'formula' }
  if (cell.kind === 'date')
    return fault(`the spreadsheet took this for a date (${text}): type the number again`)
  if (dashes.has(text)) return { state: 'blank' }
  if (notRecorded.has(text)) return { state: 'not-recorded' }
  switch (measure) {
    case 'presence':
      return readPresence(text, settings)
    case 'braun-blanquet':
    case 'domin':
      return readClass(text, measure)
    case 'count':
      return readCount(text)
    case 'cover-percent':
      return readCover(text, settings)
    default:
      return readShare(text, measure, settings)
  }
}

/** Case, full-width characters and spaces at the ends do not matter. */
export function plainText(text: string): string {
  return text.normalize('NFKC').trim().toLowerCase().replace(/^'/, '')
}

export function isTickOrCross(text: string): boolean {
  return /^[✓✔☑x×✗✘☒]$/.test(plainText(text))
}

export function isCross(text: string): boolean {
  return crosses.has(plainText(text))
}

/** A number with a decimal point or a decimal comma, or null; also of more digits than a number can have. */
export function readNumber(text: string): number | null {
  const plain = plainText(text)
  if (!/^[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:e[+-]?\d+)?$/.test(plain)) return null
  const number = Number(plain.replace(',', '.'))
  return Number.isFinite(number) ? number : null
}

/** More than anyone counts at a quadrat or in a trap: a slip of the finger. */
const COUNT_MAX = 1_000_000
export const COUNT_SAID = 'a count is a whole number from 0 to a million'

export function isCount(number: number): boolean {
  return Number.isInteger(number) && number >= 0 && number <= COUNT_MAX
}

function fault(message: string): ReadValue {
  return { state: 'fault', message }
}

function readCover(text: string, { tracePercent }: ValueSettings): ReadValue {
  if (/^(?:\+|tr?|trace|<\s*\d+(?:[.,]\d+)?\s*%?)$/.test(text))
    return {
      state: 'value',
      value: tracePercent,
      present: true,
      repair: 'a trace: present, with this stand-in',
    }
  if (isTickOrCross(text))
    return fault('a tick or cross among percentages: type the percentage, or + for a trace')
  const number = readNumber(text.replace(/\s*%$/, ''))
  if (number === null) return notANumber(text)
  if (number < 0) return fault('a cover cannot be below 0')
  if (number > 100) return fault('one species cannot cover more than 100 %')
  return { state: 'value', value: number, present: number > 0 }
}

function notANumber(text: string): ReadValue {
  const digits = text.replace(/[oils]/g, (letter) => (letter === 'o' ? '0' : letter === 's' ? '5' : '1'))
  if (/\d/.test(text) && readNumber(digits) !== null)
    return fault(`a letter among digits: is ${digits} meant?`)
  if (/^\d+\s*[-–]\s*\d+$/.test(text)) return fault('a range: type one number')
  return fault('text where a number should be')
}

function readShare(text: string, measure: 'grid-hits' | 'touches', { outOf }: ValueSettings): ReadValue {
  const [hitsText, ofText] = text.split('/')
  const hits = readNumber(hitsText ?? '')
  const of = ofText === undefined ? outOf : readNumber(ofText)
  if (hits === null) return notANumber(text)
  const noun = measure === 'grid-hits' ? 'hits' : 'touches'
  if (!Number.isInteger(hits) || hits < 0) return fault(`${noun} are whole numbers from 0`)
  if (of === null) return ofText === undefined ? { state: 'ask', about: 'out-of' } : notANumber(text)
  if (!(of > 0)) return fault(`out of ${of}: how many were there?`)
  if (hits > of) return fault(`more ${noun} than the ${of} there are`)
  const value = Number(((100 * hits) / of).toPrecision(12))
  return { state: 'value', value, present: hits > 0 }
}

function readPresence(text: string, { cross }: ValueSettings): ReadValue {
  if (crosses.has(text)) {
    if (cross === null) return { state: 'ask', about: 'cross' }
    return { state: 'value', value: cross === 'present' ? 1 : 0, present: cross === 'present' }
  }
  if (ticks.has(text)) return { state: 'value', value: 1, present: true }
  if (absences.has(text)) return { state: 'value', value: 0, present: false }
  return fault('neither a tick nor 0: a table of presence has nothing else')
}

function readCount(text: string): ReadValue {
  const number = readNumber(text)
  if (number === null) return notANumber(text)
  if (!isCount(number)) return fault(COUNT_SAID)
  return { state: 'value', value: number, present: number > 0 }
}

function readClass(text: string, measure: 'braun-blanquet' | 'domin'): ReadValue {
  if (text === '0') return { state: 'value', value: 0, present: false }
  const found = coverClass(measure === 'domin' ? dominClasses : braunBlanquetClasses, text)
  if (!found)
    return fault(
      measure === 'domin'
        ? 'no class of the Domin scale: + and 1 to 10'
        : 'no class of the Braun-Blanquet scale: r, +, 1, 2 (2m, 2a, 2b), 3, 4, 5',
    )
  return { state: 'value', value: found.midPercent, present: true }
}
