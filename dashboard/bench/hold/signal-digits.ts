import { numberText, unitText } from '../../format.ts'

/** Digits after the point that stay the same from signal to signal, so that the large number stands still. */
const DECIMALS: Readonly<Record<string, number>> = {
  mV: 1,
  V: 4,
  count: 0,
  Cel: 2,
  Hz: 2,
  Ohm: 0,
  pH: 2,
  lx: 0,
  'm/s': 2,
}

export function signalDecimals(unit: string): number {
  return DECIMALS[unit] ?? 3
}

export function signalDigits(signal: number, unit: string): string {
  return numberText(signal, signalDecimals(unit))
}

/** `−101.3 mV` */
export function signalWithUnit(signal: number, unit: string): string {
  const written = unitText(unit)
  return `${signalDigits(signal, unit)}${written === '' ? '' : `\u00a0${written}`}`
}
