import { describe, expect, test } from 'vitest'
import type { QualityTest } from '../../../hub/quality/quality-test.ts'
import { QUALITY_TESTS } from '../../../hub/quality/tests.ts'
import { type Quantity, quadratOf, transectAround } from './field.ts'
import { flaggedShare } from './score.ts'

const quantities: Quantity[] = ['soil_ph', 'soil_moisture', 'illuminance', 'soil_temperature', 'wind_speed']
const days = [
  { name: 'a lesson at 1 s', intervalMs: 1000, count: 7200 },
  { name: 'a day and a night at 10 s', intervalMs: 10_000, count: 8640 },
  { name: 'three days at 1 min', intervalMs: 60_000, count: 4320 },
]

// Common practice, no source: a teacher stops reading flags when one good reading in two hundred carries one.
describe.each(days)(
  'a faultless transect over $name, with sunflecks, gusts and cloud',
  ({ intervalMs, count }) => {
    const transects = [11, 12, 13].map((seed) =>
      [0.02, 0.1, 0.4, 1].map((openness, place) =>
        quadratOf(100 * seed + place, openness, intervalMs, count),
      ),
    )
    test.each(quantities)('%s: every test flags less than 0.5 % of the readings', (quantity) => {
      for (const each of QUALITY_TESTS as unknown as readonly QualityTest[]) {
        const config = each.defaults[quantity]
        if (config === undefined) continue
        const shares = transects.flatMap((quadrats) =>
          quadrats.map((own, place) => {
            // the nearest on the tape first
            const others = quadrats
              .filter((other) => other !== own)
              .sort((a, b) => Math.abs(quadrats.indexOf(a) - place) - Math.abs(quadrats.indexOf(b) - place))
            return flaggedShare(each.run(own[quantity], config, transectAround(own, others, quantity)))
          }),
        )
        expect(Math.max(...shares), `${each.name} on ${quantity}`).toBeLessThan(0.005)
      }
    })
  },
)
