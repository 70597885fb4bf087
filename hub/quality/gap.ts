import { z } from 'zod'
import { type Finding, NO_CONTEXT, type QualityTest, type Series } from './quality-test.ts'
import { GAP_AFTER_INTERVALS, longestStepMs, requireRising } from './unbroken.ts'

const GapConfig = z.strictObject({
  /** a step longer than this many expected intervals is a gap */
  gapAfterIntervals: z.number().min(1),
})
export type GapConfig = z.infer<typeof GapConfig>

export interface Gap {
  /** time of the last reading before and of the first one after */
  fromMs: number
  toMs: number
  /** how many readings the interval says are missing; null: the interval is not known */
  missingCount: number | null
}

/** Where a series has no readings although it should. */
export function findGaps(
  series: Series,
  config: GapConfig = { gapAfterIntervals: GAP_AFTER_INTERVALS },
): Gap[] {
  requireRising(series)
  const { timeMs, expectedIntervalMs } = series
  const longest =
    expectedIntervalMs === null ? longestStepMs(null) : config.gapAfterIntervals * expectedIntervalMs
  const gaps: Gap[] = []
  for (let n = 1; n < timeMs.length; n++) {
    const fromMs = timeMs[n - 1]!
    const toMs = timeMs[n]!
    if (toMs - fromMs <= longest) continue
    const missingCount =
      expectedIntervalMs === null ? null : Math.round((toMs - fromMs) / expectedIntervalMs) - 1
    gaps.push({ fromMs, toMs, missingCount })
  }
  return gaps
}

const everyQuantity: GapConfig = { gapAfterIntervals: GAP_AFTER_INTERVALS }

/**
 * A gap has no reading that could carry a flag: every reading passes, and {@link findGaps} tells where they are missing.
 * @see IOOS QARTOD manuals, timing / gap test, which watches for messages that did not come
 */
export const gap: QualityTest<GapConfig> = {
  name: 'gap',
  title: 'Gap',
  explain:
    'Nothing came for a while: a flat battery, a board out of range, a pulled plug. No reading is wrong, some are just not there. The line on the chart breaks instead of guessing.',
  source: 'IOOS QARTOD manuals, timing / gap test; two and a half intervals are common practice, no source',
  config: GapConfig,
  defaults: {
    soil_ph: everyQuantity,
    soil_moisture: everyQuantity,
    illuminance: everyQuantity,
    soil_temperature: everyQuantity,
    wind_speed: everyQuantity,
  },
  context: () => NO_CONTEXT,
  run(series) {
    requireRising(series)
    return new Array<Finding>(series.timeMs.length).fill(null)
  },
}
