import { z } from 'zod'
import { shown } from './number-text.ts'
import { type Finding, NO_CONTEXT, type QualityTest } from './quality-test.ts'
import { Span } from './span.ts'
import { requireRising } from './unbroken.ts'

const SensorRailConfig = z.strictObject({
  /** largest counts of the converters a class uses; such a count is a rail only when its value is impossible too */
  fullScaleCounts: z.array(z.number().positive()),
  possibleCelsius: Span,
  shortedBelowOhm: z.number().min(0),
  openAboveOhm: z.number().positive(),
})
export type SensorRailConfig = z.infer<typeof SensorRailConfig>

/**
 * A thermistor with a broken wire pulls its divider to one rail of the converter, a shorted one to the other.
 * 1023 counts are the rail of a 10-bit converter and a mild day for a 12-bit one: the value, far outside of what soil
 * can be, decides. Signals already in °C have no rail and are not evaluated.
 * @see common practice, no source
 */
export const sensorRail: QualityTest<SensorRailConfig> = {
  name: 'sensor-rail',
  title: 'Broken or shorted wire',
  explain:
    'A cut wire looks like the coldest day the board can think of, a short circuit like the hottest. Neither has anything to do with the soil. Check plug and cable.',
  source: 'common practice, no source',
  config: SensorRailConfig,
  defaults: {
    soil_temperature: {
      fullScaleCounts: [1023, 4095, 16_383, 32_767, 65_535],
      possibleCelsius: [-40, 80],
      shortedBelowOhm: 20,
      openAboveOhm: 2_000_000,
    },
  },
  context: () => NO_CONTEXT,
  run(series, config) {
    requireRising(series)
    const full = new Set(config.fullScaleCounts)
    const [lowest, highest] = config.possibleCelsius
    return series.signal.map((signal, n): Finding => {
      if (series.signalUnit === 'Ohm') {
        if (signal > config.openAboveOhm) return found(`${shown(signal)} Ω is that of a broken wire`)
        return signal < config.shortedBelowOhm ? found(`${shown(signal)} Ω is that of a short circuit`) : null
      }
      if (series.signalUnit !== 'count') return 'not evaluated'
      const value = series.value[n] ?? null
      if (value !== null && value >= lowest && value <= highest) return null
      if (signal === 0) return found('no counts at all: one wire of the divider is broken or shorted')
      if (full.has(signal))
        return found(`${signal} counts are full scale: one wire of the divider is broken or shorted`)
      return value === null ? 'not evaluated' : null
    })
  },
}

function found(text: string): Finding {
  return { test: 'sensor-rail', flag: 4, text }
}
