import { decimalsFor, numberText, shownFactor, unitText } from '../../format.ts'

export interface ShownValue {
  value: string
  /** half the width of the 95 % interval; null when it cannot be known */
  plusMinus: string | null
  unit: string
}

/**
 * A value and its 95 % interval written to the same digit: the first of the interval, or the second where that is a 1, as
 * is common when a result is written down.
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
  const decimals = decimalsFor(quantity, value * factor, half)
  return {
    value: rounded(value * factor, decimals),
    plusMinus: half === null ? null : visible(half, decimals),
    unit: unitText(unit),
  }
}

/** An interval is never written as 0: it gets as many decimals as its first digit needs. */
function visible(half: number, decimals: number): string {
  const text = rounded(half, decimals)
  return /[1-9]/.test(text) ? text : numberText(half, Math.ceil(-Math.log10(half)))
}

/** Decimals below zero round to tens, hundreds … */
function rounded(value: number, decimals: number): string {
  if (decimals >= 0) return numberText(value, decimals)
  const step = 10 ** -decimals
  return numberText(Math.round(value / step) * step, 0)
}
