/**
 * SenML units (RFC 8428 §12.1, RFC 8798 §3) that a signal may come in, each as a multiple of its primary unit.
 */
const TO_PRIMARY: Readonly<Record<string, { primary: string; factor: number }>> = {
  V: { primary: 'V', factor: 1 },
  mV: { primary: 'V', factor: 0.001 },
  'm/s': { primary: 'm/s', factor: 1 },
  'km/h': { primary: 'm/s', factor: 1 / 3.6 },
  '/': { primary: '/', factor: 1 },
  // RFC 8428 §12.1: SenML's "%" means the plain ratio 0–1, the same as "/"
  '%': { primary: '/', factor: 1 },
  '/100': { primary: '/', factor: 0.01 },
  '/1000': { primary: '/', factor: 0.001 },
  m: { primary: 'm', factor: 1 },
  cm: { primary: 'm', factor: 0.01 },
  mm: { primary: 'm', factor: 0.001 },
}

/** The factor that turns a number in unit `from` into one in unit `to`; null when the units are unlike. */
export function unitFactor(from: string, to: string): number | null {
  if (from === to) return 1
  const source = TO_PRIMARY[from]
  const target = TO_PRIMARY[to]
  if (source === undefined || target === undefined || source.primary !== target.primary) return null
  // dividing last keeps V → mV exact: 1 / 0.001 is 1000, 0.084 / 0.001 is 84
  return source.factor / target.factor
}

/** A unit followed by every other unit that can be turned into it. */
export function alikeUnits(unit: string): string[] {
  const own = TO_PRIMARY[unit]?.primary
  if (own === undefined) return [unit]
  const others = Object.keys(TO_PRIMARY).filter(
    (other) => other !== unit && TO_PRIMARY[other]?.primary === own,
  )
  return [unit, ...others]
}
