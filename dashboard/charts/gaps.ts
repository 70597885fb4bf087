/**
 * Where a line must be broken. Readings further apart than three expected intervals have a gap between them;
 * when nobody said what to expect, five times the usual (median) pause is one.
 */
export function gapLimitMs(
  timeMs: readonly number[],
  expectedIntervalSeconds: number | null,
  isStepped = false,
): number {
  const usual = medianPauseMs(timeMs)
  if (expectedIntervalSeconds === null) return usual === 0 ? Number.POSITIVE_INFINITY : 5 * usual
  const limit = 3000 * expectedIntervalSeconds
  // a step of several readings stands for all of them: only a step left out is a gap
  return isStepped ? Math.max(limit, 2.5 * usual) : limit
}

export function medianPauseMs(timeMs: readonly number[]): number {
  const pauses = timeMs.slice(1).map((time, index) => time - (timeMs[index] ?? time))
  pauses.sort((one, other) => one - other)
  return pauses[Math.floor((pauses.length - 1) / 2)] ?? 0
}

/** Indices before which the line starts afresh. */
export function gapStarts(timeMs: readonly number[], limitMs: number): number[] {
  const starts: number[] = []
  for (let index = 1; index < timeMs.length; index++)
    if (timeMs[index]! - timeMs[index - 1]! > limitMs) starts.push(index)
  return starts
}
