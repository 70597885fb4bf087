import { quantityFacts } from '../../contract/quantity-facts.ts'

import { shownUnit } from '../pictures/shown-unit.ts'
import { fixedText } from '../pictures/ticks.ts'

/** A space that does not break: a number stays with its unit. */
export const SPACE = '\u00a0'

/** A number with its unit, if it has one: “98.0 %”. */
export function withUnit(digits: string, unit: string): string {
  return unit === '' ? digits : `${digits}${SPACE}${unit}`
}

export function fixed(value: number, decimals: number, unit = ''): string {
  return withUnit(fixedText(value, decimals), unit)
}

/** So many significant digits, without an exponent. */
export function significant(value: number, digits: number, unit = ''): string {
  if (value === 0 || !Number.isFinite(value)) return withUnit(fixedText(value, 0), unit)
  const order = Math.floor(Math.log10(Math.abs(value)))
  return withUnit(rounded(value, digits - 1 - order), unit)
}

/** All the digits a person entered, up to six: 811, not 811.0. */
export function plain(value: number, unit = ''): string {
  const digits = String(Number(value.toPrecision(6)))
  return withUnit(digits.includes('e') ? digits : digits.replace('-', '\u2212'), unit)
}

/**
 * Decimals worth printing: down to the first digit of the uncertainty, two when it begins with 1.
 * @returns below zero: to tens, hundreds …; null when the uncertainty is not known or nothing
 */
export function decimalsOf(expanded: number | null): number | null {
  if (expanded === null || !(expanded > 0)) return null
  const order = Math.floor(Math.log10(expanded))
  const leads = Math.floor(expanded / 10 ** order + 1e-9)
  return (leads === 1 ? 1 : 0) - order
}

export interface MeasuredText {
  value: string
  /** “± 0.24”, or “±?” */
  interval: string
  decimals: number
}

/**
 * A value with its 95 % interval in the unit shown; without an uncertainty with the decimals of its quantity.
 * @param unit  SenML's; ratios are printed as percentages
 */
export function measuredText(
  quantity: string,
  unit: string,
  value: number,
  expanded: number | null,
): MeasuredText {
  const { factor } = shownUnit(unit)
  const own = Math.max(0, (quantityFacts(quantity)?.digits ?? 2) - Math.round(Math.log10(factor)))
  const decimals = decimalsOf(expanded === null ? null : expanded * factor) ?? own
  return {
    value: rounded(value * factor, decimals),
    interval: expanded === null ? '±\u00a0?' : `±${SPACE}${rounded(expanded * factor, decimals)}`,
    decimals,
  }
}

/** @param decimals  below zero: to tens, hundreds … */
export function rounded(value: number, decimals: number): string {
  if (decimals >= 0) return fixedText(value, decimals)
  const step = 10 ** -decimals
  return fixedText(Math.round(value / step) * step, 0)
}

/** “3”, or “3 to 5”. */
export function spanText(values: readonly number[], text: (value: number) => string): string {
  const low = text(Math.min(...values))
  const high = text(Math.max(...values))
  return low === high ? low : `${low} to ${high}`
}

/** “A, B and C” */
export function listed(names: readonly string[]): string {
  if (names.length < 2) return names.join('')
  return `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`
}

/** Of many names the first few, and how many more. */
export function listedInShort(names: readonly string[], atMost = 6): string {
  if (names.length <= atMost) return listed(names)
  return `${names.slice(0, atMost - 1).join(', ')} and ${names.length - atMost + 1} more`
}

export function counted(count: number, one: string, many = `${one}s`): string {
  return `${fixedText(count, 0)}${SPACE}${count === 1 ? one : many}`
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}

/** Within a sentence: “Soil pH” is written “soil pH”. */
export function lowered(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1)
}
