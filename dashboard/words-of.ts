/** Endings of names that carry a unit, and how they are written. */
const UNITS: readonly (readonly [ending: string, written: string])[] = [
  ['MillivoltPerPh', ', mV per pH'],
  ['MetresPerSecondPerHertz', ', m/s per Hz'],
  ['MetresPerSecond', ', m/s'],
  ['Millivolt', ', mV'],
  ['Celsius', ', °C'],
  ['Percent', ', %'],
  ['Seconds', ', s'],
  ['Kelvin', ', K'],
  ['Lux', ', lx'],
  ['Ph', ', pH'],
]

/** A name out of a calibration, in words: `slopeMillivoltPerPh` is “slope, mV per pH”. */
export function wordsOf(name: string): string {
  if (name === 'millivolt') return 'mV'
  if (name === 'ph') return 'pH'
  const unit = UNITS.find(([ending]) => name.endsWith(ending))
  const base = unit ? name.slice(0, -unit[0].length) : name
  return base.replace(/([a-z0-9])([A-Z])/g, '$1 $2').toLowerCase() + (unit?.[1] ?? '')
}
