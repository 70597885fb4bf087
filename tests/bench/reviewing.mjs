import { QUALITY_TESTS } from '../../.build/hub/quality/tests.js'
import { secondsOf } from './measuring.mjs'

const READINGS = 300_000
const alone = {
  solarElevationDegrees: () => null,
  sameQuadrat: () => null,
  sameBoardRestarted: () => null,
  neighbours: () => [],
}

/** A quiet series of one reading a second. */
function quietSeries(quantity, level) {
  const value = Array.from(
    { length: READINGS },
    (_, n) => level * (1 + 0.01 * Math.sin(n / 500) + 0.001 * (n % 7)),
  )
  return {
    timeMs: value.map((_, n) => n * 1000),
    value,
    signal: value,
    quantity,
    signalUnit: '',
    expectedIntervalMs: 1000,
  }
}

const LEVELS = { soil_ph: 6, soil_moisture: 0.4, illuminance: 9000, soil_temperature: 12, wind_speed: 2 }

/** Readings a second of each quality test that is on by default, beside adding up the same readings. */
export async function measureReviewing() {
  const rows = []
  for (const [quantity, level] of Object.entries(LEVELS)) {
    const series = quietSeries(quantity, level)
    let sum = 0
    const bare =
      READINGS /
      (await secondsOf(() => {
        for (const v of series.value) sum += v
      }))
    if (!Number.isFinite(sum)) throw new Error('the series is not finite')
    for (const test of QUALITY_TESTS) {
      const config = test.defaults[quantity]
      if (config === undefined) continue
      const rate = READINGS / (await secondsOf(() => test.run(series, config, alone)))
      rows.push({
        what: `${test.name} on ${quantity}`,
        unit: 'readings/s',
        hub: rate,
        limits: [['adding them up', bare]],
      })
    }
  }
  return rows
}
