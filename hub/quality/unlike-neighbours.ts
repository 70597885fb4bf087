import { z } from 'zod'
import { exceeds } from './exceeds.ts'
import { median } from './median.ts'
import { NEIGHBOURS_AT_MOST } from './neighbours-at-most.ts'
import { shown } from './number-text.ts'
import type { Finding, QualityTest } from './quality-test.ts'
import { requireRising } from './unbroken.ts'

const UnlikeNeighboursConfig = z.strictObject({
  withinMs: z.number().positive(),
  withinMetres: z.number().positive(),
  fewestNeighbours: z.int().min(2),
  /** in the unit of the quantity: a habitat changes along a transect, this much is no fault */
  allowedDifference: z.number().min(0),
  /** and this many robust standard deviations of the neighbours, 1.4826 · MAD */
  allowedDeviations: z.number().min(0),
})
export type UnlikeNeighboursConfig = z.infer<typeof UnlikeNeighboursConfig>

/** Makes the median absolute deviation an estimate of the standard deviation of a normal law. */
const DEVIATION_PER_MAD = 1.4826

const usual = { withinMs: 600_000, withinMetres: 30, fewestNeighbours: 3, allowedDeviations: 3.5 }

/**
 * Far from the median of the same quantity, by the same method, at the quadrats around. Only ever suspect: being
 * different is what a transect is for. Equality passes. Off for moisture, light and wind: a bog
 * beside a hummock and a wood beside a meadow differ by all there is.
 * @see IOOS QARTOD manuals, neighbour test; Rousseeuw & Croux 1993, JASA 88, 1273–1283 for the scaled MAD;
 * Iglewicz & Hoaglin 1993, How to Detect and Handle Outliers, for 3.5 of them
 */
export const unlikeNeighbours: QualityTest<UnlikeNeighboursConfig> = {
  name: 'unlike-neighbours',
  title: 'Unlike its neighbours',
  explain:
    'All quadrats around say pH 5 to 6, this one says 8.9. Perhaps it is a heap of mortar; perhaps it is the probe. Go and look before you decide.',
  source: 'IOOS QARTOD manuals, neighbour test; the limits are common practice, no source',
  config: UnlikeNeighboursConfig,
  defaults: {
    soil_ph: { ...usual, allowedDifference: 2.5 },
    soil_temperature: { ...usual, allowedDifference: 12 },
  },
  context: ({ withinMs }) => ({ ms: withinMs, readings: 0 }),
  asksOthersOnly: true,
  run(series, config, around) {
    requireRising(series)
    return series.value.map((value, n): Finding => {
      if (value === null) return 'not evaluated'
      const values: number[] = []
      for (const neighbour of around.neighbours(series.timeMs[n]!, config.withinMs, config.withinMetres))
        if (neighbour.distanceMetres <= config.withinMetres) values.push(neighbour.value)
      if (values.length < Math.min(config.fewestNeighbours, NEIGHBOURS_AT_MOST)) return 'not evaluated'
      // like all of them, as nearly every reading is: then like the middle of them
      if (values.every((each) => Math.abs(value - each) <= config.allowedDifference)) return null
      const middle = median(values)
      const deviation = DEVIATION_PER_MAD * median(values.map((each) => Math.abs(each - middle)))
      const allowed = Math.max(config.allowedDifference, config.allowedDeviations * deviation)
      if (!exceeds(Math.abs(value - middle), allowed, Math.max(Math.abs(value), Math.abs(middle))))
        return null
      const text = `${shown(value)} lies more than ${shown(allowed)} from the middle of ${values.length} neighbours, ${shown(middle)}`
      return { test: 'unlike-neighbours', flag: 3, text }
    })
  },
}
