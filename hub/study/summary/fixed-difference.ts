import type { Collected } from './collect.ts'
import { methodKey } from './collect.ts'

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
 * @returns null when no such probe logged through all visits, or the values are its own
 */
export function differenceFromFixed(of: Collected, all: readonly Collected[]): FixedDifference | null {
  const alike = all.filter(
    (each) =>
      each.quantity === of.quantity &&
      each.unit === of.unit &&
      methodKey(each.method) === methodKey(of.method),
  )
  const firstMs = Math.min(...alike.map(({ timeMs }) => timeMs[0]!))
  const lastMs = Math.max(...alike.map(({ timeMs }) => timeMs.at(-1)!))
  const fixed = alike.find(
    ({ kind, timeMs }) =>
      kind === 'logged' && timeMs[0]! <= firstMs + MINUTE_MS && timeMs.at(-1)! >= lastMs - MINUTE_MS,
  )
  if (!fixed || fixed === of) return null
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
