import type { Placement } from '../../../hub/contract/survey.ts'

/** A stretch of time in which a probe was one thing: at a quadrat, in transit, or nothing was said about it. */
export interface Stretch {
  kind: 'at' | 'transit' | 'none'
  /** null: at none */
  quadrat: string | null
  fromMs: number
  /** exclusive; null: it still goes on */
  toMs: number | null
  /** the beginning of its placement as the survey writes it; null: there is no placement */
  begins: string | null
}

/**
 * What a probe was from `sinceMs` on, without holes: times no placement speaks of are stretches too.
 * @param placements  of one probe, in any order, not overlapping
 * @param sinceMs  placements that ended before it are left out
 * @returns in time order; the last goes on unless it is a placement that was ended
 */
export function stretchesOf(placements: readonly Placement[], sinceMs: number): Stretch[] {
  const ordered = [...placements].sort((one, other) => Date.parse(one.from) - Date.parse(other.from))
  const stretches: Stretch[] = []
  let untilMs: number | null = sinceMs
  for (const [index, { quadrat, from, to }] of ordered.entries()) {
    const fromMs = Date.parse(from)
    const next = ordered[index + 1]
    const toMs = to !== undefined ? Date.parse(to) : next ? Date.parse(next.from) : null
    if (toMs !== null && toMs <= sinceMs) continue
    if (untilMs !== null && fromMs > untilMs) stretches.push(nothingSaid(untilMs, fromMs))
    stretches.push({ kind: quadrat === null ? 'transit' : 'at', quadrat, fromMs, toMs, begins: from })
    untilMs = toMs
  }
  if (untilMs !== null) stretches.push(nothingSaid(untilMs, null))
  return stretches
}

function nothingSaid(fromMs: number, toMs: number | null): Stretch {
  return { kind: 'none', quadrat: null, fromMs, toMs, begins: null }
}
