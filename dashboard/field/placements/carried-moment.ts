/** One value of a probe, in its own unit. */
export interface TracePoint {
  timeMs: number
  value: number
}

/** A jump counts when it is so many times the usual step from one value to the next. Common practice, no source. */
const OUTSTANDING = 5

/**
 * When a probe was most likely taken up: in the middle of the largest step between two values that follow each other.
 * @param points  in time order
 * @returns UTC ms; null when there are fewer than four values or no step stands out
 */
export function carriedMoment(points: readonly TracePoint[]): number | null {
  if (points.length < 4) return null
  const steps = points.slice(1).map(({ timeMs, value }, index) => {
    const before = points[index]!
    return { timeMs: (before.timeMs + timeMs) / 2, size: Math.abs(value - before.value) }
  })
  const sizes = steps.map(({ size }) => size).sort((one, other) => one - other)
  const usual = sizes[Math.floor(sizes.length / 2)]!
  const largest = steps.reduce((most, step) => (step.size > most.size ? step : most))
  return largest.size > 0 && largest.size >= OUTSTANDING * usual ? largest.timeMs : null
}
