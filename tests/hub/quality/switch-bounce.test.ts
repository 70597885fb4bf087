import { describe, expect, test } from 'vitest'
import { switchBounce } from '../../../hub/quality/switch-bounce.ts'
import { quadratOf } from './field.ts'
import { scoreOf } from './score.ts'
import { seeded } from './seeded.ts'
import { alone, seriesOf } from './series.ts'

const config = switchBounce.defaults['wind_speed']!
const flags = (signal: number[], more: object = {}) =>
  switchBounce
    .run(
      seriesOf(
        signal.map((hertz) => 0.66 * hertz),
        { signal, quantity: 'wind_speed', signalUnit: 'Hz', ...more },
      ),
      config,
      alone(),
    )
    .map((finding) => (finding === 'not evaluated' ? 2 : (finding?.flag ?? 1)))

// Common practice, no source; the doubling rule is that of the calibration house.
describe('a switch that bounces', () => {
  // A07: counts a second with one of 18 between 8 and 7.
  test('a doubled second standing alone is suspect', () => {
    expect(flags([3, 4, 9, 8, 18, 7, 4, 3])).toEqual([1, 1, 1, 1, 3, 1, 1, 1])
    expect(flags([3, 4, 9, 8, 16, 7, 4, 3])[4]).toBe(1)
  })

  test('counts over the interval mean the same as a frequency', () => {
    expect(flags([8, 18, 7], { signalUnit: 'count' })).toEqual([1, 3, 1])
    expect(flags([4, 9, 4], { signalUnit: 'Hz', expectedIntervalMs: 2000 })).toEqual([1, 3, 1])
  })

  test('beside a gap, and in intervals longer than two seconds, doubling says nothing', () => {
    expect(flags([8, 18, 7], { timeMs: [0, 1000, 9000] })).toEqual([1, 1, 1])
    expect(flags([8, 18, 7], { expectedIntervalMs: 10_000 })).toEqual([2, 2, 2])
  })

  test('below, at and above the rate no cup reaches', () => {
    expect([99, 100, 101].map((hertz) => flags([hertz, hertz, hertz])[1])).toEqual([1, 1, 4])
    expect(flags([1010], { signalUnit: 'count', expectedIntervalMs: 10_000 })).toEqual([4])
  })

  // Ten readings, nine of 3 Hz: a last one of h has the ratio 10 h / (27 + h), 4 at h = 18.
  test('below, at and above four times the mean, in intervals of any length', () => {
    const gust = (hertz: number) => flags([...Array(9).fill(3), hertz], { expectedIntervalMs: 10_000 })[9]
    expect([17.9, 18, 18.1].map(gust)).toEqual([1, 1, 3])
  })

  test('four times hardly anything is a breath of wind, and a mean needs ten readings', () => {
    expect(flags([...Array(9).fill(0.5), 6], { expectedIntervalMs: 10_000 })[9]).toBe(1)
    expect(flags([...Array(8).fill(3), 40], { expectedIntervalMs: 10_000 })[8]).toBe(2)
  })

  // Common practice, no source: in some seconds each closure is counted three or four times.
  test('finds a simulated bouncing switch with precision and recall of at least 0.95', () => {
    const runs = Array.from({ length: 8 }, (_, seed) => {
      const chance = seeded(seed)
      const clean = quadratOf(seed, 1, 1000, 3000).wind_speed
      // a wind that turns the cups three times a second or more: below that no count can tell
      const isFaulty = clean.signal.map((hertz, n) => n % 10 === 5 && hertz >= 3 && chance.uniform() < 0.5)
      const signal = clean.signal.map((hertz, n) =>
        isFaulty[n] ? hertz * (chance.uniform() < 0.5 ? 4 : 5) : hertz,
      )
      const value = signal.map((hertz) => (hertz === 0 ? 0 : 0.3 + 0.66 * hertz))
      return { isFaulty, findings: switchBounce.run({ ...clean, signal, value }, config, alone()) }
    })
    const { precision, recall } = scoreOf(runs)
    expect(precision).toBeGreaterThanOrEqual(0.95)
    expect(recall).toBeGreaterThanOrEqual(0.95)
  })
})
