import { expect, test } from 'vitest'
import type { QualityTest } from '../../../hub/quality/quality-test.ts'
import { QUALITY_TESTS } from '../../../hub/quality/tests.ts'
import { type Quantity, quadratOf } from './field.ts'
import { alone } from './series.ts'

const quantities: Quantity[] = ['soil_ph', 'soil_moisture', 'illuminance', 'soil_temperature', 'wind_speed']

// Common practice, no source. Work in proportion to the readings doubles when they do, and a square quadruples: the long
// series may take four times what the short one takes for each of its readings before it counts as too slow.
test('ten times the readings take about ten times as long, whichever the test', () => {
  const [short, long] = [10_000, 100_000].map((count) => quadratOf(1, 0.5, 1000, count))
  for (const each of QUALITY_TESTS as unknown as readonly QualityTest[])
    for (const quantity of quantities) {
      const config = each.defaults[quantity]
      if (config === undefined) continue
      const fastestMs = (own: typeof short) => {
        const took = Array.from({ length: 3 }, () => {
          const startMs = performance.now()
          each.run(own![quantity], config, alone())
          return performance.now() - startMs
        })
        return Math.min(...took)
      }
      const shortMs = Math.max(1, fastestMs(short))
      expect(fastestMs(long), `${each.name} on ${quantity}`).toBeLessThan(40 * shortMs)
    }
})
