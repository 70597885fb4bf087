import { z } from 'zod'
import type { Finding, QualityTest, Series } from './quality-test.ts'
import { SlidingExtremes } from './sliding-extremes.ts'
import { requireRising, unbrokenFrom } from './unbroken.ts'

const FullScaleConfig = z.strictObject({
  /** counts no sensor of the class can go above: one reading is enough */
  fullScaleCounts: z.number().positive(),
  /** full scales of smaller converters: believed when the top is flat and nothing rises above it */
  smallerFullScaleCounts: z.array(z.number().positive()),
  flatTopReadings: z.int().min(2),
  nothingAboveWithinMs: z.number().positive(),
  /** a sensor whose counts fall with light is saturated at 0 when that means at least this many lx */
  brightAtZeroLux: z.number().positive(),
})
export type FullScaleConfig = z.infer<typeof FullScaleConfig>

/**
 * Light at the end of the converter's scale: the true light was at least this, nobody knows how much more.
 * 16-bit sensors end at 65 535, analogue inputs at 1023 or 4095; a light-to-frequency chip at short integration times
 * at 5047 (13.7 ms) and 37 177 (101 ms).
 * @see BH1750FVI and TSL2561 data sheets for the full scales; the flat top is common practice, no source
 */
export const fullScale: QualityTest<FullScaleConfig> = {
  name: 'full-scale',
  title: 'Blinded by the sun',
  explain:
    'The sensor counts up to its biggest number and stops there, like a scale with a weight that is too heavy. The light was at least this bright, so the value must not go into a mean.',
  source: 'sensor data sheets for the full scales; the flat top rule is common practice, no source',
  config: FullScaleConfig,
  defaults: {
    illuminance: {
      fullScaleCounts: 65_535,
      smallerFullScaleCounts: [1023, 4095, 5047, 16_383, 32_767, 37_177],
      flatTopReadings: 3,
      nothingAboveWithinMs: 3_600_000,
      brightAtZeroLux: 1000,
    },
  },
  context: ({ flatTopReadings, nothingAboveWithinMs }) => ({
    ms: nothingAboveWithinMs,
    readings: flatTopReadings - 1,
  }),
  run(series, config) {
    requireRising(series)
    if (series.signalUnit !== 'count') return new Array<Finding>(series.signal.length).fill('not evaluated')
    const isFlatTop = flatTops(series, config)
    return series.signal.map((signal, n): Finding => {
      const value = series.value[n] ?? null
      if (signal >= config.fullScaleCounts || isFlatTop[n] === 1)
        return {
          test: 'full-scale',
          flag: 4,
          text: `${signal} counts are full scale: the true light was at least this`,
        }
      if (signal <= 0 && value !== null && value >= config.brightAtZeroLux)
        return { test: 'full-scale', flag: 4, text: 'no counts left: the true light was at least this' }
      return null
    })
  },
}

/** 1 where the signal stays at a smaller full scale and nothing around is higher. */
function flatTops(series: Series, config: FullScaleConfig): Uint8Array {
  const { signal, timeMs } = series
  const isTop = new Uint8Array(signal.length)
  const tops = new Set(config.smallerFullScaleCounts)
  if (!signal.some((counts) => tops.has(counts))) return isTop
  const from = unbrokenFrom(series, 'signal')
  const window = new SlidingExtremes(signal)
  let added = 0
  let dropped = 0
  for (let n = 0, runFrom = 0; n < signal.length; n++) {
    if (signal[n] !== signal[n - 1]) runFrom = n
    runFrom = Math.max(runFrom, from[n]!)
    while (added < signal.length && timeMs[added]! <= timeMs[n]! + config.nothingAboveWithinMs)
      window.add(added++)
    while (timeMs[dropped]! < timeMs[n]! - config.nothingAboveWithinMs) dropped += 1
    window.dropBefore(dropped)
    const here = signal[n]!
    if (!tops.has(here) || window.highest > here) continue
    let runTo = n
    while (
      runTo - runFrom + 1 < config.flatTopReadings &&
      signal[runTo + 1] === here &&
      from[runTo + 1] === from[n]
    )
      runTo += 1
    if (runTo - runFrom + 1 >= config.flatTopReadings) isTop[n] = 1
  }
  return isTop
}
