import { numberText, shownFactor, unitText } from '../../format.ts'

/** Two figures of an uncertainty: `0.0118` is `0.012`, in the unit shown. */
export function uncertaintyDigits(uncertainty: number, unit: string): string {
  const shown = Math.abs(uncertainty * shownFactor(unit))
  if (!(shown > 0)) return '0'
  const decimals = Math.max(0, 1 - Math.floor(Math.log10(shown)))
  return numberText(shown, Math.min(decimals, 6))
}

/** Digits of a value that its uncertainty allows: two figures of it, as laboratories write. */
export function benchDigits(value: number, uncertainty: number | null, unit: string): string {
  const factor = shownFactor(unit)
  if (uncertainty === null || !(uncertainty > 0)) return numberText(value * factor, DECIMALS[unit] ?? 3)
  const decimals = 1 - Math.floor(Math.log10(uncertainty * factor))
  return numberText(value * factor, Math.max(0, Math.min(decimals, DECIMALS[unit] ?? 3)))
}

/** Without an uncertainty. */
const DECIMALS: Readonly<Record<string, number>> = { pH: 3, '/': 2, 'm3/m3': 2, lx: 0, Cel: 3, 'm/s': 3 }

/** `pH 7.05`, `12.20 °C` */
export function withValueUnit(digits: string, unit: string): string {
  const written = unitText(unit)
  if (written === 'pH') return `pH\u00a0${digits}`
  return written === '' ? digits : `${digits}\u00a0${written}`
}

/** A difference with its sign: `+0.03`, `−1.2 %`; a pH difference has no unit before it. */
export function differenceText(difference: number, unit: string, decimals?: number): string {
  const shown = difference * shownFactor(unit)
  const digits = numberText(shown, decimals ?? READ[unit] ?? 2)
  const written = unitText(unit)
  const signed = shown > 0 && /[1-9]/.test(digits) ? `+${digits}` : digits
  return written === 'pH' || written === '' ? signed : `${signed}\u00a0${written}`
}

/** Digits a reading of a class probe is worth, when nothing says better. */
export function readingDigits(value: number, unit: string): string {
  return numberText(value * shownFactor(unit), READ[unit] ?? 2)
}

const READ: Readonly<Record<string, number>> = { pH: 2, '/': 1, 'm3/m3': 1, lx: 0, Cel: 2, 'm/s': 2 }
