import type { QuadratValue } from './quadrat-means.ts'

/** A column of the joined table, and its cell for a quadrat: null is not recorded. */
export interface FactorColumn {
  heading: string
  of(quadrat: string): number | null
}

/**
 * Abiotic values to columns: `soil_ph_median` and `soil_ph_n`, with `soil_ph_u` when an uncertainty is known. A quantity
 * measured by unlike methods or in unlike units has columns for each, never one for all. Values as given have their
 * own heading and no n.
 */
export function factorColumns(values: readonly QuadratValue[]): FactorColumn[] {
  const groups = new Map<string, QuadratValue[]>()
  for (const value of values) {
    const key = JSON.stringify([value.quantity, value.method, value.unit, value.statistic])
    groups.set(key, [...(groups.get(key) ?? []), value])
  }
  return [...groups.values()].flatMap((group) => {
    const { quantity, method, unit, statistic } = group[0]!
    const same = values.filter((value) => value.quantity === quantity)
    const isSplit = (part: 'method' | 'unit') => new Set(same.map((value) => value[part])).size > 1
    const base = [
      quantity,
      ...(isSplit('method') ? [inName(method)] : []),
      ...(isSplit('unit') ? [inName(unit)] : []),
    ].join('_')
    const byQuadrat = new Map(group.map((value) => [value.quadrat, value]))
    const column = (heading: string, part: 'value' | 'n' | 'uncertainty'): FactorColumn => ({
      heading,
      of: (quadrat) => byQuadrat.get(quadrat)?.[part] ?? null,
    })
    if (statistic === 'as given') return [column(base, 'value')]
    const hasUncertainty = group.some(({ uncertainty }) => uncertainty !== null)
    return [
      column(`${base}_${statistic}`, 'value'),
      ...(hasUncertainty ? [column(`${base}_u`, 'uncertainty')] : []),
      column(`${base}_n`, 'n'),
    ]
  })
}

function inName(text: string): string {
  return (
    text
      .toLowerCase()
      .replace(/[^\p{L}\p{N}]+/gu, '_')
      .replace(/^_|_$/g, '') || 'not_said'
  )
}
