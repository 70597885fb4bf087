import { quantityFacts } from '../../hub/contract/quantity-facts.ts'

import { numberText, shownFactor, unitText } from '../format.ts'
import { quantityWords } from '../quantities.ts'
import { readNumber } from '../read-number.ts'

/** A number as it is typed: with a decimal point or comma, a sign, a true minus. */
export type TypedNumber =
  | { is: 'empty' }
  | { is: 'unreadable'; why: string }
  /** `value` in the stored unit: 35 % is 0.35. `question` when it is outside of what is likely */
  | { is: 'number'; value: number; question: string | null }

/**
 * Reads what was typed for a quantity and asks about it when it is outside the quantity’s spans. It is never refused for
 * that: the person may have seen what nobody expected.
 * @param unit  stored unit of the meter, such as `/`, which is typed as a percentage
 */
export function readTyped(text: string, quantity: string, unit: string): TypedNumber {
  if (text.trim() === '') return { is: 'empty' }
  const typed = readNumber(text.replace('\u2212', '-'))
  if (typed === null)
    return { is: 'unreadable', why: `“${text.trim()}” is not a number. Digits, and one point or comma.` }
  const value = Number((typed / shownFactor(unit)).toPrecision(15))
  return { is: 'number', value, question: questionAbout(value, quantity, unit) }
}

function questionAbout(value: number, quantity: string, unit: string): string | null {
  const facts = quantityFacts(quantity)
  if (!facts || !isKindred(facts.unit, unit)) return null
  const { label } = quantityWords(quantity)
  if (!isWithin(value, facts.failSpan))
    return `${label} lies between ${spanText(facts.failSpan, unit)}; no meter could read this. Is it really what it showed?`
  if (!isWithin(value, facts.suspectSpan))
    return `${label} is usually between ${spanText(facts.suspectSpan, unit)}. Is this really what it showed?`
  return null
}

/** Volumetric water content has the same spans as relative wetness: both are parts of 1. */
function isKindred(known: string, unit: string): boolean {
  return known === unit || (known === '/' && unit === 'm3/m3')
}

function isWithin(value: number, [low, high]: readonly [number, number]): boolean {
  return value >= low && value <= high
}

function spanText([low, high]: readonly [number, number], unit: string): string {
  const [from, to] = [low * shownFactor(unit), high * shownFactor(unit)]
  const decimals = (number: number) => (Number.isInteger(Number(number.toFixed(6))) ? 0 : 1)
  const written = unit === 'pH' ? '' : ` ${unitText(unit)}`
  return `${numberText(from, decimals(from))} and ${numberText(to, decimals(to))}${written}`
}
