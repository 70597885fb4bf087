/** How each quantity is named and written on a page. The order is that of the notebook's rows. */
export interface QuantityWords {
  name: string
  label: string
  /** for a narrow screen */
  short: string
  /** digits after the point, in the unit shown, when no uncertainty says better */
  decimals: number
  /** significant figures instead, for quantities that run over decades */
  figures?: number
}

export const fieldQuantities: readonly QuantityWords[] = [
  { name: 'soil_ph', label: 'Soil pH', short: 'pH', decimals: 2 },
  { name: 'soil_moisture', label: 'Soil moisture', short: 'Moisture', decimals: 1 },
  { name: 'illuminance', label: 'Light', short: 'Light', decimals: 0, figures: 3 },
  { name: 'soil_temperature', label: 'Soil temperature', short: 'Soil temp.', decimals: 1 },
  { name: 'wind_speed', label: 'Wind speed', short: 'Wind', decimals: 1 },
]

/** A quantity of the class's own is written as its name, with spaces. */
export function quantityWords(name: string): QuantityWords {
  const known = fieldQuantities.find((quantity) => quantity.name === name)
  if (known) return known
  const spaced = name.replaceAll('_', ' ')
  const label = spaced.charAt(0).toUpperCase() + spaced.slice(1)
  return { name, label, short: label, decimals: 2 }
}

/** The five of a habitat study, then the others in use, each once. */
export function rowsFor(used: Iterable<string>): QuantityWords[] {
  const others = [...new Set(used)].filter((name) => !fieldQuantities.some((known) => known.name === name))
  return [...fieldQuantities, ...others.sort().map(quantityWords)]
}
