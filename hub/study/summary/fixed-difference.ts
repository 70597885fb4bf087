import { type Collected, type GroupName, groupKey, methodKey, type Outline } from './collect.ts'

const MINUTE_MS = 60_000

export interface FixedDifference {
  probe: string
  /** in the unit of the values */
  mean: number
  /** values that had a partner within the minute */
  n: number
}

/** What can be compared: one quantity, in one unit, measured in one way. */
function alikeKey({ quantity, unit, method }: GroupName): string {
  return JSON.stringify([quantity, unit, methodKey(method)])
}

/** Of each kind of value, a probe that logged through all visits, if there is one. */
export class FixedProbes {
  readonly #fixed = new Map<string, Outline | undefined>()

  /** @param all  of the survey */
  constructor(all: readonly Outline[]) {
    const alike = new Map<string, Outline[]>()
    for (const each of all) {
      const key = alikeKey(each)
      const others = alike.get(key)
      if (others) others.push(each)
      else alike.set(key, [each])
    }
    for (const [key, group] of alike) {
      const firstMs = group.reduce((first, { fromMs }) => Math.min(first, fromMs), Infinity)
      const lastMs = group.reduce((last, { toMs }) => Math.max(last, toMs), -Infinity)
      const isThroughout = ({ kind, fromMs, toMs }: Outline) =>
        kind === 'logged' && fromMs <= firstMs + MINUTE_MS && toMs >= lastMs - MINUTE_MS
      this.#fixed.set(key, group.find(isThroughout))
    }
  }

  for(group: GroupName): Outline | undefined {
    return this.#fixed.get(alikeKey(group))
  }
}

/**
 * Soil warms while a class walks: what a carried meter reads late is compared with a probe of the same kind that stood
 * still, at the same minutes.
 * @param valuesOf  reads a group
 * @returns null when no such probe logged through all visits, or the values are its own
 */
export function differenceFromFixed(
  of: Collected,
  probes: FixedProbes,
  valuesOf: (group: GroupName) => Collected | undefined,
): FixedDifference | null {
  const name = probes.for(of)
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
