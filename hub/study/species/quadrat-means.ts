import { median } from '../../quality/median.ts'

export type Statistic = 'mean' | 'median' | 'as given'

/** One abiotic value of one quadrat. Unlike methods or units of a quantity are never one value. */
export interface QuadratValue {
  quadrat: string
  quantity: string
  /** how it was measured, in words; empty when the table does not say */
  method: string
  unit: string
  n: number
  /** null: not recorded */
  value: number | null
  statistic: Statistic
  /** standard uncertainty of the value, in its unit; null: not known */
  uncertainty: number | null
}

export interface Measured {
  quadrat: string
  quantity: string
  method: string
  unit: string
  value: number
}

/** Soil pH and light are told by their median: a single bad hole, or a sunfleck, does not move it. */
export function statisticFor(quantity: string): 'mean' | 'median' {
  return /(?:^|_)ph$|illuminance|light|ppfd/i.test(quantity) ? 'median' : 'mean'
}

/** Readings to one value for each quadrat, quantity, method and unit: the arithmetic mean, or the median, with n. */
export function summariseQuadrats(readings: readonly Measured[]): QuadratValue[] {
  const groups = new Map<string, { first: Measured; values: number[] }>()
  for (const reading of readings) {
    const { quadrat, quantity, method, unit, value } = reading
    const key = JSON.stringify([quadrat, quantity, method, unit])
    const group = groups.get(key)
    if (group) group.values.push(value)
    else groups.set(key, { first: reading, values: [value] })
  }
  return [...groups.values()].map(({ first: { quadrat, quantity, method, unit }, values }) => {
    const statistic = statisticFor(quantity)
    const value = statistic === 'median' ? median(values) : mean(values)
    return { quadrat, quantity, method, unit, n: values.length, value, statistic, uncertainty: null }
  })
}

/** Rounded to 12 digits, which drops the dust of adding binary fractions and nothing that was measured. */
function mean(values: readonly number[]): number {
  return Number((values.reduce((sum, value) => sum + value, 0) / values.length).toPrecision(12))
}
