import type { StudyPair } from '../../../hub/contract/study.ts'

export type PairOrder = 'clearest' | 'factor' | 'species'

export const pairOrders: readonly { value: PairOrder; label: string }[] = [
  { value: 'clearest', label: 'clearest first' },
  { value: 'factor', label: 'by factor' },
  { value: 'species', label: 'by species' },
]

/**
 * Pairs in an order to be read. Clearest first: smallest p after Holm’s correction, then before it, then the stronger
 * order; what has no p comes last, by name.
 */
export function sortPairs(pairs: readonly StudyPair[], order: PairOrder): StudyPair[] {
  const byName = (a: StudyPair, b: StudyPair) =>
    order === 'species'
      ? a.species.localeCompare(b.species) || a.factor.localeCompare(b.factor)
      : a.factor.localeCompare(b.factor) || a.species.localeCompare(b.species)
  if (order !== 'clearest') return [...pairs].sort(byName)
  return [...pairs].sort(
    (a, b) =>
      lastIfNull(a.adjustedP, b.adjustedP) ||
      lastIfNull(a.p, b.p) ||
      Math.abs(b.rho ?? 0) - Math.abs(a.rho ?? 0) ||
      byName(a, b),
  )
}

function lastIfNull(a: number | null, b: number | null): number {
  if (a === null || b === null) return Number(a === null) - Number(b === null)
  return a - b
}
