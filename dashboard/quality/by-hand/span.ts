import type { TimeSpan } from '../../../hub/contract/reading.ts'

/** What is marked on a chart: nothing, the first end of a span, or a span. `toMs` does not belong to it. */
export type Marked = null | { edgeMs: number } | TimeSpan

export function isSpan(marked: Marked): marked is TimeSpan {
  return marked !== null && 'fromMs' in marked
}

/** The span between two times, whichever comes first, in whole seconds that hold both; it ends now at the latest. */
export function spanBetween(oneMs: number, otherMs: number, nowMs: number): TimeSpan {
  const latest = Math.floor(nowMs / 1000) * 1000 + 1000
  const fromMs = Math.min(Math.floor(Math.min(oneMs, otherMs) / 1000) * 1000, latest - 1000)
  const toMs = Math.min(Math.floor(Math.max(oneMs, otherMs) / 1000) * 1000 + 1000, latest)
  return { fromMs, toMs: Math.max(toMs, fromMs + 1000) }
}

/** The first tap is one end, the second the other; a third begins anew. */
export function afterTap(before: Marked, timeMs: number, nowMs: number): Marked {
  return before !== null && 'edgeMs' in before
    ? spanBetween(before.edgeMs, timeMs, nowMs)
    : { edgeMs: timeMs }
}

/** As a chart draws it: a first end is a span of no length. */
export function drawnSpan(marked: Marked): TimeSpan | null {
  if (marked === null || isSpan(marked)) return marked
  return { fromMs: marked.edgeMs, toMs: marked.edgeMs }
}

/** The decision with a time in it; of several the last one made, which is the one that holds. */
export function decisionAt<D extends { probe: string; from: string; to: string; takenBack?: unknown }>(
  decisions: readonly D[],
  probe: string,
  timeMs: number,
): D | undefined {
  return decisions.findLast(
    (each) =>
      each.probe === probe &&
      each.takenBack === undefined &&
      Date.parse(each.from) <= timeMs &&
      timeMs < Date.parse(each.to),
  )
}
