/** A unit as people write it, and by what values in it are multiplied to be shown: ratios are shown as percentages. */
export interface ShownUnit {
  /** empty for pH, whose unit is in its name */
  text: string
  factor: number
}

const WRITTEN: Readonly<Record<string, ShownUnit>> = {
  Cel: { text: '°C', factor: 1 },
  '/': { text: '%', factor: 100 },
  'm3/m3': { text: '% by volume', factor: 100 },
  Ohm: { text: 'Ω', factor: 1 },
  count: { text: 'counts', factor: 1 },
  pH: { text: '', factor: 1 },
}

/** @param unit  SenML's (RFC 8428), or any other, which is written as it is */
export function shownUnit(unit: string): ShownUnit {
  return WRITTEN[unit] ?? { text: unit, factor: 1 }
}

/** “Soil temperature (°C)”; a unit that the name says already is not said twice. */
export function nameWithUnit(name: string, unit: string): string {
  const { text } = shownUnit(unit)
  return text === '' || name.includes(text) ? name : `${name} (${text})`
}
