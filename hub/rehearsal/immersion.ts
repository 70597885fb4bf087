import type { Medium } from './bench-media.ts'

/** A probe in a medium, from a moment until the next immersion. */
export interface Immersion {
  readonly medium: Medium
  /** since the start; −∞ for where it was found */
  readonly fromSeconds: number
}

/** @param immersions  of one probe, oldest first, at least one and that from −∞ */
export function mediumAt(immersions: readonly Immersion[], elapsedSeconds: number): Medium {
  const current = immersions.findLast(({ fromSeconds }) => fromSeconds <= elapsedSeconds) ?? immersions[0]
  if (!current) throw new RangeError('a probe is always somewhere')
  return current.medium
}

/** How a probe comes to terms with a medium. */
export interface Approach {
  /** the level it tends to, which may itself move */
  target(medium: Medium, elapsedSeconds: number): number
  /** after which 1/e of the difference is left; 0 for at once */
  timeConstantSeconds(medium: Medium): number
}

/**
 * The level a probe has reached, exponentially from where it was at each immersion: worked out from all of them
 * anew, so that it depends on nothing but what was put where and when.
 * @param immersions  oldest first, the first from −∞: there it has settled long ago
 */
export function levelReached(
  immersions: readonly Immersion[],
  elapsedSeconds: number,
  { target, timeConstantSeconds }: Approach,
): number {
  let medium = mediumAt(immersions, Number.NEGATIVE_INFINITY)
  let since = Number.NEGATIVE_INFINITY
  let difference = 0
  const differenceAt = (seconds: number) => {
    const constant = timeConstantSeconds(medium)
    return difference === 0 || constant === 0 ? 0 : difference * Math.exp((since - seconds) / constant)
  }
  for (const next of immersions) {
    if (next.fromSeconds === Number.NEGATIVE_INFINITY || next.fromSeconds > elapsedSeconds) continue
    const left = target(medium, next.fromSeconds) + differenceAt(next.fromSeconds)
    difference = left - target(next.medium, next.fromSeconds)
    medium = next.medium
    since = next.fromSeconds
  }
  return target(medium, elapsedSeconds) + differenceAt(elapsedSeconds)
}
