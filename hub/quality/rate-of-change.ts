import { z } from 'zod'
import { exceeds } from './exceeds.ts'
import { shown, shownSpan } from './number-text.ts'
import type { Finding, QualityTest } from './quality-test.ts'
import { unbrokenFrom } from './unbroken.ts'

const RateOfChangeConfig = z.strictObject({
  /** in the unit of the quantity per hour, up or down: more → 3 */
  suspectPerHour: z.number().positive(),
  /**
   * Compare with the latest reading at least this old: between two readings a second apart the noise alone
   * outruns any limit. 0: with the reading before, as the manual does.
   */
  baselineMs: z.number().min(0),
})
export type RateOfChangeConfig = z.infer<typeof RateOfChangeConfig>

const HOUR_MS = 3_600_000

/**
 * Changing faster than soil can. Equality passes; the first reading, and those too soon after a gap, are not evaluated.
 * With a baseline the older value is the median of three, so that an old spike is not blamed on a new reading.
 * @see IOOS QARTOD manuals, rate of change test; a fixed rate in place of the manual's standard deviations
 */
export const rateOfChange: QualityTest<RateOfChangeConfig> = {
  name: 'rate-of-change',
  title: 'Too fast',
  explain:
    'Soil is slow. When its temperature runs away by a degree in a minute, somebody pulled the probe out or has just put it in. Light and wind are quick by nature, so there the test is off.',
  source: 'IOOS QARTOD manuals, rate of change test; limits and baselines are common practice, no source',
  config: RateOfChangeConfig,
  defaults: {
    soil_ph: { suspectPerHour: 0.5, baselineMs: 600_000 },
    soil_moisture: { suspectPerHour: 0.6, baselineMs: 600_000 },
    soil_temperature: { suspectPerHour: 30, baselineMs: 60_000 },
  },
  context: ({ baselineMs }) => ({ ms: baselineMs, readings: 2 }),
  run(series, { suspectPerHour, baselineMs }) {
    const from = unbrokenFrom(series, 'value')
    const { timeMs, value } = series
    const found = new Array<Finding>(value.length).fill('not evaluated')
    let base = -1
    for (let n = 1; n < value.length; n++) {
      while (base + 1 < n && timeMs[base + 1]! <= timeMs[n]! - baselineMs) base += 1
      if (base < from[n]! || value[n] === null) continue
      const stepMs = timeMs[n]! - timeMs[base]!
      if (stepMs === 0) continue
      const isAlone = baselineMs === 0 || base === from[n] || base + 1 >= n
      const old = isAlone ? value[base]! : median(value[base - 1]!, value[base]!, value[base + 1]!)
      const change = Math.abs(value[n]! - old)
      const magnitude = Math.max(Math.abs(value[n]!), Math.abs(old))
      const isTooFast = exceeds(change, (suspectPerHour * stepMs) / HOUR_MS, magnitude)
      found[n] = isTooFast
        ? {
            test: 'rate-of-change',
            flag: 3,
            text: `changed by ${shown(change)} in ${shownSpan(stepMs)}; the limit is ${shown(suspectPerHour)} an hour`,
          }
        : null
    }
    return found
  },
}

function median(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c))
}
