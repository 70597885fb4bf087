import type { QuadratSeries } from '../../../hub/contract/reading.ts'

/** Readings of a probe in a span, and how many of them are suspect or failed. */
export interface SpanCount {
  all: number
  suspect: number
  fail: number
}

type Part = Pick<QuadratSeries, 'probe' | 'flag' | 'count' | 'id'>

/**
 * Counts them exactly. Where the hub puts several readings into a step, only the worst flag of each is known: then
 * the span is halved and asked for again.
 * @param series  the series of a quadrat between two times, the second excluded
 */
export async function countInSpan(
  series: (fromMs: number, toMs: number) => Promise<readonly Part[]>,
  probe: string,
  fromMs: number,
  toMs: number,
): Promise<SpanCount> {
  const parts = (await series(fromMs, toMs)).filter((part) => part.probe === probe)
  const isSingle = parts.every(({ id }) => id.every((each) => each !== null))
  if (!isSingle && toMs - fromMs > 1) {
    const middleMs = Math.floor((fromMs + toMs) / 2)
    const [one, other] = [
      await countInSpan(series, probe, fromMs, middleMs),
      await countInSpan(series, probe, middleMs, toMs),
    ]
    return { all: one.all + other.all, suspect: one.suspect + other.suspect, fail: one.fail + other.fail }
  }
  const count: SpanCount = { all: 0, suspect: 0, fail: 0 }
  for (const part of parts)
    part.flag.forEach((flag, index) => {
      const n = part.count[index] ?? 1
      count.all += n
      if (flag === 3) count.suspect += n
      if (flag === 4) count.fail += n
    })
  return count
}
