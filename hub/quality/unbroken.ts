import type { Series } from './quality-test.ts'

/** A step longer than this many expected intervals is a gap. Common practice, no source. */
export const GAP_AFTER_INTERVALS = 2.5

/** When nothing is known of the interval. Common practice, no source. */
const GAP_WHEN_UNKNOWN_MS = 3_600_000

/** The longest step between two readings that still counts as no gap. */
export function longestStepMs(expectedIntervalMs: number | null): number {
  return expectedIntervalMs === null ? GAP_WHEN_UNKNOWN_MS : GAP_AFTER_INTERVALS * expectedIntervalMs
}

/** @throws RangeError when times fall or are no numbers, or the columns differ in length */
export function requireRising({ timeMs, value, signal }: Series): void {
  if (value.length !== timeMs.length || signal.length !== timeMs.length)
    throw new RangeError(`columns of ${timeMs.length}, ${value.length} and ${signal.length} readings`)
  for (let n = 1; n < timeMs.length; n++)
    if (!(timeMs[n]! >= timeMs[n - 1]!))
      throw new RangeError(`readings must rise in time: ${timeMs[n - 1]} comes before ${timeMs[n]}`)
}

/**
 * For each reading, the index of the first one from which there is neither a gap nor a missing value up to it.
 * A missing value belongs to no run: its own index plus one.
 */
export function unbrokenFrom(series: Series, needs: 'value' | 'signal'): Int32Array {
  requireRising(series)
  const { timeMs, value } = series
  const longest = longestStepMs(series.expectedIntervalMs)
  const from = new Int32Array(timeMs.length)
  for (let n = 0, start = 0; n < timeMs.length; n++) {
    if (n > 0 && timeMs[n]! - timeMs[n - 1]! > longest) start = n
    if (needs === 'value' && value[n] === null) start = n + 1
    from[n] = start
  }
  return from
}
