import { z } from 'zod'
import { findBounce } from '../../calibration/index.ts'
import { shown, shownSpan } from './number-text.ts'
import type { Finding, QualityTest, Series } from './quality-test.ts'
import { unbrokenFrom } from './unbroken.ts'

const SwitchBounceConfig = z.strictObject({
  /** no cup of a class turns so fast: more → 4 */
  impossibleHertz: z.number().positive(),
  /** pulses are looked at one interval at a time when it is no longer than this; in longer ones a gust can do the same */
  countedWithinMs: z.number().positive(),
  /** one reading over the mean of the window: more → 3 */
  gustOverMean: z.number().min(1),
  /** below it even a large ratio is only a breath of wind */
  gustAtLeastMetresPerSecond: z.number().min(0),
  windowMs: z.number().positive(),
  fewestReadings: z.int().min(2),
})
export type SwitchBounceConfig = z.infer<typeof SwitchBounceConfig>

/**
 * A reed switch that bounces is counted two or more times a turn: a doubled count standing alone between two normal
 * seconds, a gust more than four times the mean, or a rate no cup reaches. The mean is over a window about the reading.
 * @see common practice, no source; the doubling test is that of the calibration house
 */
export const switchBounce: QualityTest<SwitchBounceConfig> = {
  name: 'switch-bounce',
  title: 'Counted twice',
  explain:
    'Each turn of the cups closes a small switch. A worn one trembles and is counted two or three times, so for a second the wind seems to double. Real cups are too heavy for that.',
  source: 'common practice, no source',
  config: SwitchBounceConfig,
  defaults: {
    wind_speed: {
      impossibleHertz: 100,
      countedWithinMs: 2000,
      gustOverMean: 4,
      gustAtLeastMetresPerSecond: 6,
      windowMs: 600_000,
      fewestReadings: 10,
    },
  },
  context: ({ windowMs }) => ({ ms: windowMs / 2, readings: 2 }),
  run(series, config) {
    const from = unbrokenFrom(series, 'signal')
    const pulses = pulsesPerReading(series, config)
    const isDoubled = new Uint8Array(series.signal.length)
    if (pulses !== null) for (const n of findBounce(pulses)) if (from[n + 1]! < n) isDoubled[n] = 1
    const means = windowMeans(series, config)
    return series.signal.map((signal, n): Finding => {
      const hertz = hertzOf(signal, series)
      if (hertz !== null && hertz > config.impossibleHertz)
        return found(4, `${shown(hertz)} pulses a second: no cup turns so fast`)
      if (isDoubled[n] === 1)
        return found(
          3,
          `${shown(signal)} stands alone between ${shown(series.signal[n - 1]!)} and ${shown(series.signal[n + 1]!)}: the switch bounced`,
        )
      const value = series.value[n] ?? null
      const mean = means[n]!
      if (value !== null && value >= config.gustAtLeastMetresPerSecond && value > config.gustOverMean * mean)
        return found(
          3,
          `${shown(value)} m/s is ${shown(value / mean)} times the mean of ${shownSpan(config.windowMs)}`,
        )
      return pulses === null && Number.isNaN(mean) ? 'not evaluated' : null
    })
  },
}

function found(flag: 3 | 4, text: string): Finding {
  return { test: 'switch-bounce', flag, text }
}

function hertzOf(signal: number, { signalUnit, expectedIntervalMs }: Series): number | null {
  if (signalUnit === 'Hz') return signal
  return signalUnit === 'count' && expectedIntervalMs !== null ? (signal * 1000) / expectedIntervalMs : null
}

function pulsesPerReading(series: Series, { countedWithinMs }: SwitchBounceConfig): number[] | null {
  const { signal, expectedIntervalMs } = series
  if (expectedIntervalMs === null || expectedIntervalMs > countedWithinMs) return null
  return signal.map((each) => ((hertzOf(each, series) ?? 0) * expectedIntervalMs) / 1000)
}

/** Over all values within half a window to either side; NaN where there are too few. */
function windowMeans(
  { timeMs, value }: Series,
  { windowMs, fewestReadings }: SwitchBounceConfig,
): Float64Array {
  const means = new Float64Array(value.length)
  let first = 0
  let end = 0
  let sum = 0
  let count = 0
  for (let n = 0; n < value.length; n++) {
    for (; end < value.length && timeMs[end]! <= timeMs[n]! + windowMs / 2; end++) {
      sum += value[end] ?? 0
      count += value[end] === null ? 0 : 1
    }
    for (; timeMs[first]! < timeMs[n]! - windowMs / 2; first++) {
      sum -= value[first] ?? 0
      count -= value[first] === null ? 0 : 1
    }
    means[n] = count < fewestReadings ? Number.NaN : sum / count
  }
  return means
}
