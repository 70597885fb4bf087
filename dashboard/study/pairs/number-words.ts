import { numberText } from '../../format.ts'

/** A coefficient with its sign; a dash when it is not defined. */
export function coefficientText(coefficient: number | null): string {
  if (coefficient === null) return '–'
  return `${coefficient > 0 ? '+' : ''}${numberText(coefficient, 2)}`
}

/** Three decimals, four where it is small, never 0. */
export function pText(p: number | null): string {
  if (p === null) return '–'
  return p < 0.001 ? '< 0.001' : p.toFixed(p < 0.01 ? 4 : 3)
}

/** “0.75”, “1.2”: two significant digits, written out. */
export function roughText(value: number): string {
  return String(Number(value.toPrecision(2)))
}
