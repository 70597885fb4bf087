import { z } from 'zod'
import { shown } from './number-text.ts'
import { type Finding, NO_CONTEXT, type QualityTest } from './quality-test.ts'
import { requireRising } from './unbroken.ts'

const NightLightConfig = z.strictObject({
  /** night begins when the sun's centre is lower than this */
  sunBelowDegrees: z.number().max(0),
  brighterThanLux: z.number().positive(),
})
export type NightLightConfig = z.infer<typeof NightLightConfig>

/**
 * Light after civil twilight. The full moon gives about 0.3 lx; more than 10 is a lamp, a sensor with a dark offset,
 * or a clock in the wrong time zone. Not evaluated where the place of the survey is not known.
 * @see civil twilight ends at −6°; the limit in lx is common practice, no source
 */
export const nightLight: QualityTest<NightLightConfig> = {
  name: 'night-light',
  title: 'Bright at night',
  explain:
    'The sun is well below the horizon, and yet the sensor sees light. A torch or a street lamp does that; so does a board whose clock is hours out, and then all of its times are wrong.',
  source: 'civil twilight for the sun; the limit in lx is common practice, no source',
  config: NightLightConfig,
  defaults: { illuminance: { sunBelowDegrees: -6, brighterThanLux: 10 } },
  context: () => NO_CONTEXT,
  run(series, { sunBelowDegrees, brighterThanLux }, around) {
    requireRising(series)
    return series.value.map((value, n): Finding => {
      if (value === null) return 'not evaluated'
      if (value <= brighterThanLux) return null
      const sunDegrees = around.solarElevationDegrees(series.timeMs[n]!)
      if (sunDegrees === null) return 'not evaluated'
      if (sunDegrees >= sunBelowDegrees) return null
      const text = `${shown(value)} lx with the sun ${shown(-sunDegrees)}° below the horizon: a lamp, or the clock is wrong`
      return { test: 'night-light', flag: 3, text }
    })
  },
}
