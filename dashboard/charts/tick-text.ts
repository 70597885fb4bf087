import { numberText, unitText } from '../format.ts'

/** A value beside its mark, with as many digits as tell it from the next mark. */
export function tickText(value: number, apart: number, unit: string): string {
  const text = numberText(value, Math.min(4, Math.max(0, -Math.floor(Math.log10(apart) + 1e-9))))
  const written = unitText(unit)
  return written === 'pH' ? `pH ${text}` : `${text} ${written}`
}
