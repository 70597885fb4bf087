import type { DayOfQuadrat } from '../../contract/study.ts'

const HOUR_MS = 3_600_000
/** Light is not carried over a longer gap: what it did then is not known. Common practice, no source. */
const GAP_MS = 600_000

/**
 * Daily minimum, maximum, amplitude and mean of a series, by local day, and for light its daily sum.
 * @param timeMs  rising
 * @param isLight  the sum is in lx·h, by the trapezium rule between neighbouring readings
 */
export function daysOf(
  timeMs: readonly number[],
  value: readonly number[],
  dayOf: (timeMs: number) => string,
  isLight: boolean,
): DayOfQuadrat[] {
  const days: DayOfQuadrat[] = []
  let sum = 0
  for (const [index, time] of timeMs.entries()) {
    const reading = value[index]!
    const day = dayOf(time)
    let last = days.at(-1)
    if (last?.day !== day) {
      last = {
        day,
        n: 0,
        low: reading,
        high: reading,
        amplitude: 0,
        mean: 0,
        sumLuxHours: isLight ? 0 : null,
      }
      days.push(last)
      sum = 0
    } else if (isLight) {
      const passedMs = time - timeMs[index - 1]!
      if (passedMs <= GAP_MS) last.sumLuxHours! += (((reading + value[index - 1]!) / 2) * passedMs) / HOUR_MS
    }
    sum += reading
    last.n++
    last.low = Math.min(last.low, reading)
    last.high = Math.max(last.high, reading)
    last.amplitude = last.high - last.low
    last.mean = sum / last.n
  }
  return days
}
