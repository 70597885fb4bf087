import { describe, expect, test } from 'vitest'
import { nightLight } from '../../../hub/quality/night-light.ts'
import { quadratOf, transectAround } from './field.ts'
import { scoreOf } from './score.ts'
import { alone, flagsOf, seriesOf } from './series.ts'

const config = nightLight.defaults['illuminance']!
const flag = (lux: number | null, sunDegrees: number | null) =>
  flagsOf(nightLight.run(seriesOf([lux]), config, alone({ solarElevationDegrees: () => sunDegrees })), [
    lux,
  ])[0]

// Civil twilight ends with the sun at −6°; 10 lx is common practice, no source.
describe('light at night', () => {
  test('below, at and above the limit of light', () => {
    expect([9.9, 10, 10.1].map((lux) => flag(lux, -20))).toEqual([1, 1, 3])
  })

  test('below, at and above the end of twilight', () => {
    expect([-5.9, -6, -6.1].map((degrees) => flag(50, degrees))).toEqual([1, 1, 3])
  })

  test('darkness passes anywhere; light is not evaluated where the place is not known', () => {
    expect([flag(0, null), flag(50, null), flag(null, -20)]).toEqual([1, 2, 9])
  })

  // Common practice, no source: a clock six hours out shows day at night, as do three hours of a lamp.
  test('finds a simulated clock that is hours out, and a lamp, with precision and recall of at least 0.95', () => {
    const runs = Array.from({ length: 6 }, (_, seed) => {
      const own = quadratOf(seed, 1, 60_000, 2880)
      const around = transectAround(own, [], 'illuminance')
      const isNight = own.timeMs.map((timeMs) => around.solarElevationDegrees(timeMs)! < -6)
      const isLit = (n: number) =>
        seed % 2 === 0 ? n % 1440 > 960 && n % 1440 < 1140 : own.illuminance.value[(n + 360) % 2880]! > 10
      const value = own.illuminance.value.map((lux, n) => (isLit(n) ? Math.max(40, lux!) : lux))
      return {
        isFaulty: isNight.map((is, n) => is && isLit(n)),
        findings: nightLight.run({ ...own.illuminance, value }, config, around),
      }
    })
    expect(runs.every(({ isFaulty }) => isFaulty.includes(true))).toBe(true)
    const { precision, recall } = scoreOf(runs)
    expect(Math.min(precision, recall)).toBeGreaterThanOrEqual(0.95)
  })
})
