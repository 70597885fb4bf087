import { numberText, shownFactor, unitText } from '../../format.ts'

/** Two figures of an uncertainty: `0.0118` is `0.012`, in the unit shown. */
export function uncertaintyDigits(uncertainty: number, unit: string): string {
  const shown = Math.abs(uncertainty * shownFactor(unit))
  if (!(shown > 0)) return '0'
  const decimals = Math.max(0, 1 - Math.floor(Math.log10(shown)))
  return numberText(shown, Math.min(decimals, 6))
}

/** Digits a reading of a class probe is worth, in the unit shown. */
const READ: Readonly<Record<string, number>> = { pH: 2, '/': 1, 'm3/m3': 1, lx: 0, Cel: 2, 'm/s': 2 }

/** The smallest difference that is shown, in the unit of the value. */
export function finestStep(unit: string): number {
  return 10 ** -(READ[unit] ?? 3) / shownFactor(unit)
}

/** Decimals that an uncertainty allows, two figures of it, and never more than the probe is worth. */
function decimalsWith(uncertainty: number | null, unit: string): number {
  const most = READ[unit] ?? 3
  if (uncertainty === null || !(uncertainty > 0)) return most
  return Math.max(0, Math.min(most, 1 - Math.floor(Math.log10(uncertainty * shownFactor(unit)))))
}

export function benchDigits(value: number, uncertainty: number | null, unit: string): string {
  return numberText(value * shownFactor(unit), decimalsWith(uncertainty, unit))
}

/** `pH 4.00 ± 0.03`, `12.2 ± 0.3 °C`: value and half-width with the same decimals. */
export function withExpanded(value: number, expanded: number, unit: string): string {
  const decimals = decimalsWith(expanded, unit)
  const half = numberText(expanded * shownFactor(unit), decimals)
  const shownHalf = /[1-9]/.test(half) ? half : `less than ${numberText(10 ** -decimals, decimals)}`
  const digits = `${numberText(value * shownFactor(unit), decimals)}\u00a0±\u00a0${shownHalf}`
  return withValueUnit(digits, unit)
}

/** Digits of a reading when nothing says better. */
export function readingDigits(value: number, unit: string): string {
  return numberText(value * shownFactor(unit), READ[unit] ?? 2)
}

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
