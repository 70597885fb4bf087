/**
 * UCUM code of a unit written as SenML writes it, or null when none is known.
 * SenML’s `/` is a part of 1; where the study’s tables say `%` it is 0–100, which is UCUM’s `%`.
 * @see RFC 8428 §12.1 and the Unified Code for Units of Measure
 */
export function ucumOf(unit: string): string | null {
  return UCUM[unit] ?? null
}

const UCUM: Readonly<Record<string, string>> = {
  pH: '[pH]',
  lx: 'lx',
  Cel: 'Cel',
  '/': '1',
  '%': '%',
  '%RH': '%',
  '%EL': '%',
  'm/s': 'm/s',
  'm3/m3': 'm3/m3',
  V: 'V',
  mV: 'mV',
  Hz: 'Hz',
  count: '{count}',
  'W/m2': 'W/m2',
  m: 'm',
  cm: 'cm',
  h: 'h',
  'lx.h': 'lx.h',
}
