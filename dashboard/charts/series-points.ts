import type { QuadratSeries, ReadingTuple } from '../../hub/contract/reading.ts'

/** One point of a chart: a reading, or a step that stands for several (its id is null). */
export interface SeriesPoint {
  id: number | null
  timeMs: number
  value: number | null
  low: number | null
  high: number | null
  uncertainty: number | null
  flag: number
  count: number
  /** corrected for drift, where that was asked for */
  corrected?: number | null
}

export function pointsOf(series: QuadratSeries): SeriesPoint[] {
  return series.timeMs.map((timeMs, index) => ({
    id: series.id[index] ?? null,
    timeMs,
    value: series.mean[index] ?? null,
    low: series.low[index] ?? null,
    high: series.high[index] ?? null,
    uncertainty: series.uncertainty[index] ?? null,
    flag: series.flag[index] ?? 2,
    count: series.count[index] ?? 1,
    corrected: series.corrected?.[index] ?? null,
  }))
}

export function pointOf([id, , timeMs, , value, uncertainty, flag]: ReadingTuple): SeriesPoint {
  return { id, timeMs, value, low: value, high: value, uncertainty, flag, count: 1 }
}

/**
 * Fetched points with what the stream brought since. A backlog may bring old readings late, so they are put in
 * order of time; a reading that both bring is taken once; steps already cover what they span.
 */
export function joinPoints(
  fetched: readonly SeriesPoint[],
  streamed: readonly SeriesPoint[],
  fetchedUpToMs: number,
): SeriesPoint[] {
  const known = new Set(fetched.map(({ id }) => id))
  const isStepped = fetched.some(({ id }) => id === null)
  const fresh = streamed.filter(
    (point) => !known.has(point.id) && !(isStepped && point.timeMs <= fetchedUpToMs),
  )
  if (fresh.length === 0) return [...fetched]
  return [...fetched, ...fresh].sort((one, other) => one.timeMs - other.timeMs)
}
