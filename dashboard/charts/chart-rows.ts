import { gapLimitMs, gapStarts } from './gaps.ts'
import type { SeriesPoint } from './series-points.ts'

/** Lists as the chart library wants them: seconds, null where the line breaks, and the band about it. */
export interface ChartRows {
  seconds: number[]
  /** joined by the line: no failed reading */
  line: (number | null)[]
  bandLow: (number | null)[]
  bandHigh: (number | null)[]
  /** corrected for drift */
  corrected: (number | null)[]
  /** the point of each row; null on a row that only breaks the line */
  points: (SeriesPoint | null)[]
}

/** The band is ± two standard uncertainties of a reading, or lowest to highest of a step. */
export function chartRows(
  points: readonly SeriesPoint[],
  expectedIntervalSeconds: number | null,
  factor: number,
): ChartRows {
  const times = points.map(({ timeMs }) => timeMs)
  const isStepped = points.some(({ id }) => id === null)
  const starts = new Set(gapStarts(times, gapLimitMs(times, expectedIntervalSeconds, isStepped)))
  const rows: ChartRows = { seconds: [], line: [], bandLow: [], bandHigh: [], corrected: [], points: [] }
  points.forEach((point, index) => {
    if (starts.has(index)) push(rows, (times[index - 1]! + point.timeMs) / 2000, null, null, null, null, null)
    const { value, low, high, uncertainty } = point
    const isJoined = value !== null && point.flag !== 4
    const hasBand = isJoined && (uncertainty !== null || point.count > 1)
    const spread = point.count > 1 ? 0 : 2 * (uncertainty ?? 0)
    push(
      rows,
      point.timeMs / 1000,
      isJoined ? value * factor : null,
      hasBand ? ((low ?? value) - spread) * factor : null,
      hasBand ? ((high ?? value) + spread) * factor : null,
      isJoined && typeof point.corrected === 'number' ? point.corrected * factor : null,
      point,
    )
  })
  return rows
}

function push(
  rows: ChartRows,
  seconds: number,
  line: number | null,
  low: number | null,
  high: number | null,
  corrected: number | null,
  point: SeriesPoint | null,
): void {
  rows.seconds.push(seconds)
  rows.line.push(line)
  rows.bandLow.push(low)
  rows.bandHigh.push(high)
  rows.corrected.push(corrected)
  rows.points.push(point)
}
