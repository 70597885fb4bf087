import { type Collected, type GroupName, groupKey, methodKey, type Outline } from './collect.ts'

const MINUTE_MS = 60_000

export interface FixedDifference {
  probe: string
  /** in the unit of the values */
  mean: number
  /** values that had a partner within the minute */
  n: number
}

/**
 * Soil warms while a class walks: what a carried meter reads late is compared with a probe of the same kind that stood
 * still, at the same minutes.
 * @param all  of the survey
 * @param valuesOf  reads one of these
 * @returns null when no such probe logged through all visits, or the values are its own
 */
export function differenceFromFixed(
  of: Collected,
  all: readonly Outline[],
  valuesOf: (group: GroupName) => Collected | undefined,
): FixedDifference | null {
  const alike = all.filter(
    (each) =>
      each.quantity === of.quantity &&
      each.unit === of.unit &&
      methodKey(each.method) === methodKey(of.method),
  )
  const firstMs = alike.reduce((first, { fromMs }) => Math.min(first, fromMs), Infinity)
  const lastMs = alike.reduce((last, { toMs }) => Math.max(last, toMs), -Infinity)
  const name = alike.find(
    ({ kind, fromMs, toMs }) =>
      kind === 'logged' && fromMs <= firstMs + MINUTE_MS && toMs >= lastMs - MINUTE_MS,
  )
  if (!name || groupKey(name) === groupKey(of)) return null
  const fixed = valuesOf(name)
  if (!fixed) return null
  let sum = 0
  let n = 0
  let at = 0
  for (const [index, time] of of.timeMs.entries()) {
    while (
      at + 1 < fixed.timeMs.length &&
      Math.abs(fixed.timeMs[at + 1]! - time) <= Math.abs(fixed.timeMs[at]! - time)
    )
      at++
    if (Math.abs(fixed.timeMs[at]! - time) > MINUTE_MS) continue
    sum += of.value[index]! - fixed.value[at]!
    n++
  }
  return n === 0 ? null : { probe: fixed.probes[0]!, mean: sum / n, n }
}
