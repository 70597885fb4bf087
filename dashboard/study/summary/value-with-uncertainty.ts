import { decimalsFor, numberText, shownFactor, unitText } from '../../format.ts'
import { quantityWords } from '../../quantities.ts'

export interface ShownValue {
  value: string
  /** half the width of the 95 % interval; null when it cannot be known */
  plusMinus: string | null
  unit: string
}

/**
 * A value and its 95 % interval written to the same digit: the first of the interval, or the second where that is a 1, as
 * is common when a result is written down; at most one digit more than a single reading of the quantity has.
 * @param expanded  half the width of the interval, in `unit`; null when unknown
 */
export function valueWithUncertainty(
  quantity: string,
  unit: string,
  value: number,
  expanded: number | null,
): ShownValue {
  const factor = shownFactor(unit)
  const half = expanded === null || !(expanded > 0) ? null : expanded * factor
  const decimals =
    half === null ? decimalsFor(quantity, value * factor, null) : decimalsOfInterval(quantity, half)
  return {
    value: rounded(value * factor, decimals),
    plusMinus: half === null ? null : visible(half, decimals),
    unit: unitText(unit),
  }
}

function decimalsOfInterval(quantity: string, half: number): number {
  const { decimals, figures } = quantityWords(quantity)
  const order = Math.floor(Math.log10(half))
  const isLedByOne = Math.floor(half / 10 ** order) === 1
  return Math.min(figures === undefined ? decimals + 1 : 0, (isLedByOne ? 1 : 0) - order)
}

/** An interval narrower than the last digit is written as one of that digit, never as 0. */
function visible(half: number, decimals: number): string {
  const text = rounded(half, decimals)
  return /[1-9]/.test(text) ? text : rounded(10 ** -decimals, decimals)
}

/** Decimals below zero round to tens, hundreds … */
function rounded(value: number, decimals: number): string {
  if (decimals >= 0) return numberText(value, decimals)
  const step = 10 ** -decimals
  return numberText(Math.round(value / step) * step, 0)
}
