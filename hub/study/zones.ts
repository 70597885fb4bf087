import { isRefusal } from '../../calibration/index.ts'
import type { StudyStatistics, StudySummary } from '../contract/study.ts'
import type { Factor } from './factors.ts'
import { kruskalWallis } from './statistics/kruskal-wallis.ts'
import { mannWhitney } from './statistics/mann-whitney.ts'

/** Fewer quadrats in a zone than this are not compared. */
const FEWEST = 3

/** Each factor between the zones of the transects, or the plots: two by Mann–Whitney, more by Kruskal–Wallis. */
export function compareZones(summary: StudySummary, factors: readonly Factor[]): StudyStatistics['zones'] {
  const zoneOf = new Map(summary.quadrats.map(({ label, zone }) => [label, zone]))
  return factors.flatMap((factor) => {
    const byZone = new Map<string, number[]>()
    for (const { label } of summary.quadrats) {
      const zone = zoneOf.get(label)
      const value = factor.values.get(label)?.value
      if (zone == null || value === undefined) continue
      byZone.set(zone, [...(byZone.get(zone) ?? []), value])
    }
    const groups = [...byZone].map(([zone, values]) => ({ zone, values }))
    if (groups.length < 2) return []
    return [{ factor: factor.name, unit: factor.unit, groups, ...testOf(groups) }]
  })
}

function testOf(groups: readonly { zone: string; values: number[] }[]) {
  const small = groups.find(({ values }) => values.length < FEWEST)
  if (small)
    return {
      test: 'none',
      statistic: null,
      p: null,
      text: `Too few quadrats in ${small.zone} (${small.values.length}) for a test: 3 or more are needed in each, 10 are better.`,
    }
  const values = groups.map((group) => group.values)
  const two = groups.length === 2 ? mannWhitney(values[0]!, values[1]!) : null
  if (two && !isRefusal(two))
    return { test: 'Mann–Whitney U', statistic: two.u, p: two.p, text: verdict(two.p, groups, two.method) }
  const several = kruskalWallis(values)
  if (isRefusal(several)) return { test: 'none', statistic: null, p: null, text: several.message }
  return {
    test: 'Kruskal–Wallis H',
    statistic: several.h,
    p: several.p,
    text: verdict(several.p, groups, several.method),
  }
}

function verdict(p: number | null, groups: readonly { zone: string }[], method: string): string {
  const names = groups.map(({ zone }) => zone).join(', ')
  if (p === null) return `Not defined: all values are the same in ${names}.`
  const says =
    p <= 0.05
      ? 'the zones differ by more than chance easily gives'
      : 'such differences come up easily by chance'
  return `Between ${names} ${says} (p = ${p < 0.001 ? '< 0.001' : p.toFixed(3)}, ${method}). Quadrats beside each other resemble each other, so p is too hopeful.`.replace(
    'p = < ',
    'p < ',
  )
}
