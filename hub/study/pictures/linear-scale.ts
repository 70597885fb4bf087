import { ticksAround } from './ticks.ts'

/** Values along a straight axis, with round ticks at both ends. */
export interface LinearScale {
  /** px of a value */
  at(value: number): number
  ticks: readonly number[]
  low: number
  high: number
}

/**
 * An axis that holds all values given.
 * @param values  finite; none, or all the same, still give an axis with a length
 * @param fromPx  where the low end lies, and `toPx` the high one (smaller, for an axis that goes up)
 */
export function scaleFor(
  values: readonly number[],
  fromPx: number,
  toPx: number,
  ticksAtMost: number,
): LinearScale {
  let low = Math.min(...values)
  let high = Math.max(...values)
  if (values.length === 0) [low, high] = [0, 1]
  if (low === high) {
    const room = low === 0 ? 1 : Math.abs(low) * 0.1
    ;[low, high] = [low - room, high + room]
  }
  const ticks = ticksAround(low, high, ticksAtMost)
  return scaleOf(ticks[0]!, ticks.at(-1)!, fromPx, toPx, ticks)
}

/** An axis from `low` to `high` exactly, whatever the ticks; those outside are left out. */
export function scaleOf(
  low: number,
  high: number,
  fromPx: number,
  toPx: number,
  ticks: readonly number[],
): LinearScale {
  return {
    at: (value) => fromPx + ((value - low) / (high - low)) * (toPx - fromPx),
    ticks: ticks.filter((tick) => tick >= low - 1e-9 && tick <= high + 1e-9),
    low,
    high,
  }
}
