import { z } from 'zod'
import type { FlagReason } from '../contract/flag.ts'
import { exceeds } from './exceeds.ts'
import { shown } from './number-text.ts'
import type { Finding, QualityTest } from './quality-test.ts'
import { unbrokenFrom } from './unbroken.ts'

const SpikeConfig = z
  .strictObject({
    /** `absolute`: in the unit of the quantity; `share`: parts of the mean of both neighbours, 0.5 for half of it */
    differenceIs: z.enum(['absolute', 'share']),
    suspectDifference: z.number().positive(),
    failDifference: z.number().positive(),
  })
  .refine(
    ({ suspectDifference, failDifference }) => suspectDifference <= failDifference,
    'what fails differs at least as much as what is suspect',
  )
export type SpikeConfig = z.infer<typeof SpikeConfig>

/**
 * A value far from the mean of the one before and the one after. First, last, and beside a gap or a missing value:
 * not evaluated. Equality passes. A step marks both its shoulders, as in the manual.
 * @see IOOS QARTOD manuals, spike test: |v[n−1] − (v[n−2] + v[n]) / 2|
 */
export const spike: QualityTest<SpikeConfig> = {
  name: 'spike',
  title: 'Spike',
  explain:
    'One reading that jumps away from both of its neighbours and back again. Soil does not do that between two readings; a loose plug does. Light and wind do it all the time, so there the test is off.',
  source: 'IOOS QARTOD manuals, spike test; the limits are common practice, no source',
  config: SpikeConfig,
  defaults: {
    soil_ph: { differenceIs: 'absolute', suspectDifference: 0.3, failDifference: 1 },
    soil_moisture: { differenceIs: 'absolute', suspectDifference: 0.05, failDifference: 0.15 },
    soil_temperature: { differenceIs: 'absolute', suspectDifference: 1, failDifference: 5 },
  },
  context: () => ({ ms: 0, readings: 1 }),
  run(series, config) {
    const from = unbrokenFrom(series, 'value')
    const { value } = series
    const found = new Array<Finding>(value.length).fill('not evaluated')
    for (let n = 1; n + 1 < value.length; n++)
      if (from[n + 1]! < n) found[n] = judge(value[n]!, value[n - 1]!, value[n + 1]!, config)
    return found
  },
}

function judge(value: number, before: number, after: number, config: SpikeConfig): FlagReason | null {
  const between = (before + after) / 2
  const size = Math.abs(value - between)
  const magnitude = Math.max(Math.abs(value), Math.abs(before), Math.abs(after))
  const unit = config.differenceIs === 'share' ? Math.abs(between) : 1
  if (!exceeds(size, config.suspectDifference * unit, magnitude)) return null
  const isFail = exceeds(size, config.failDifference * unit, magnitude)
  const limit = (isFail ? config.failDifference : config.suspectDifference) * unit
  const text = `${shown(value)} lies ${shown(size)} from the mean of its neighbours, ${shown(between)}; the limit is ${shown(limit)}`
  return { test: 'spike', flag: isFail ? 4 : 3, text }
}
