import { describe, expect, test } from 'vitest'
import { moistureOutOfSoil } from '../../../hub/quality/moisture-out-of-soil.ts'
import { quadratOf } from './field.ts'
import { scoreOf } from './score.ts'
import { seeded } from './seeded.ts'
import { alone, flagsOf, seriesOf } from './series.ts'

const config = moistureOutOfSoil.defaults['soil_moisture']!
const flags = (value: (number | null)[], around = alone(), more: object = {}) =>
  flagsOf(
    moistureOutOfSoil.run(
      seriesOf(value, { quantity: 'soil_moisture', signalUnit: 'count', ...more }),
      config,
      around,
    ),
    value,
  )
const lightStep = (afterMs: number, factor: number) =>
  alone({ sameQuadrat: (_, timeMs) => (timeMs >= afterMs ? 1000 * factor : 1000) })

// Common practice, no source.
describe('a moisture probe out of the soil', () => {
  test('in air between two leaps is suspect; with a leap of the light it fails', () => {
    const value = [0.4, 0.4, -0.05, -0.05, 0.4]
    expect(flags(value)).toEqual([1, 1, 3, 3, 1])
    expect(flags(value, lightStep(2000, 1.51))).toEqual([1, 1, 4, 4, 1])
    expect(flags(value, lightStep(2000, 1.5))).toEqual([1, 1, 3, 3, 1])
    expect(flags(value, lightStep(2000, 0.5))).toEqual([1, 1, 4, 4, 1])
  })

  test('below, at and above the value of air', () => {
    expect([0.019, 0.02, 0.021].map((air) => flags([0.4, air])[1])).toEqual([3, 3, 1])
  })

  test('below, at and above the leap', () => {
    expect([0.079, 0.08, 0.081].map((soil) => flags([soil, 0])[1])).toEqual([1, 3, 3])
  })

  test('one or two readings on the way hide nothing', () => {
    expect(flags([0.4, 0.05, 0.03, 0])).toEqual([1, 1, 1, 3])
    expect(flags([0.4, 0.07, 0.06, 0.05, 0])).toEqual([1, 1, 1, 1, 1])
  })

  test('soil that dries out slowly passes, and so does a reading in air that came after a gap', () => {
    expect(flags(Array.from({ length: 50 }, (_, n) => 0.4 - 0.01 * n))).toEqual(Array(50).fill(1))
    expect(flags([0.4, 0, 0], alone(), { timeMs: [0, 9000, 10_000] })).toEqual([1, 1, 1])
  })

  test('after half an hour in air it can no longer be told from dry soil', () => {
    const value = [0.4, ...Array(40).fill(0)]
    const found = flags(value, alone(), { expectedIntervalMs: 60_000 })
    expect(found.lastIndexOf(3)).toBe(31)
  })

  // Common practice, no source: lifted for some minutes and put back.
  test('finds simulated lifts with precision and recall of at least 0.95', () => {
    const runs = Array.from({ length: 10 }, (_, seed) => {
      const chance = seeded(seed)
      const own = quadratOf(seed, 0.6, 10_000, 2000)
      const isFaulty = own.timeMs.map((_, n) => n % 400 >= 100 && n % 400 < 100 + 10 * (1 + (seed % 5)))
      const value = own.soil_moisture.value.map((wetness, n) =>
        isFaulty[n] ? -0.07 + 0.005 * chance.normal() : wetness,
      )
      return { isFaulty, findings: moistureOutOfSoil.run({ ...own.soil_moisture, value }, config, alone()) }
    })
    const { precision, recall } = scoreOf(runs)
    expect(Math.min(precision, recall)).toBeGreaterThanOrEqual(0.95)
  })
})
