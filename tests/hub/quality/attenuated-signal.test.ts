import { describe, expect, test } from 'vitest'
import { attenuatedSignal } from '../../../hub/quality/attenuated-signal.ts'
import { quadratOf } from './field.ts'
import { scoreOf } from './score.ts'
import { seeded } from './seeded.ts'
import { alone, flagsOf, seriesOf } from './series.ts'

const run = (value: (number | null)[], spreadIs: string, more: object = {}) => {
  const config = attenuatedSignal.config.parse({ windowMs: 3000, spreadIs, suspectBelow: 2, failBelow: 1 })
  return flagsOf(attenuatedSignal.run(seriesOf(value, more), config, alone()), value)
}

// Source: QARTOD manuals, attenuated signal test.
describe('attenuated signal test', () => {
  test('below, at, at and above both limits of the range; equality passes', () => {
    const last = (spread: number) => run([5, 5, 5 + spread, 5], 'range')[3]
    expect([0.9, 1, 1.9, 2, 2.1].map(last)).toEqual([4, 3, 3, 1, 1])
  })

  // The sample standard deviation of 0, 0, 0, d is d / 2.
  test('below, at and above both limits of the standard deviation', () => {
    const last = (spread: number) => run([0, 0, 0, spread], 'standard deviation')[3]
    expect([1.9, 2, 3.9, 4, 4.1].map(last)).toEqual([4, 3, 3, 1, 1])
  })

  test('a window counts once it is full, and begins anew after a gap or a missing value', () => {
    expect(run([5, 5, 5, 5, 5], 'range')).toEqual([2, 2, 2, 4, 4])
    expect(run([5, 5, 5, 5, null, 5, 5, 5, 5], 'range')).toEqual([2, 2, 2, 4, 9, 2, 2, 2, 4])
    const timeMs = [0, 1000, 2000, 3000, 9000, 10_000, 11_000, 12_000]
    for (const spreadIs of ['range', 'standard deviation'])
      expect(run([5, 5, 5, 5, 5, 5, 5, 5], spreadIs, { timeMs })).toEqual([2, 2, 2, 4, 2, 2, 2, 4])
  })

  test('a large level does not drown a small spread', () => {
    const chance = seeded(1)
    const value = Array.from({ length: 2000 }, () => 1e9 + 3 * chance.normal())
    expect(
      run(value, 'standard deviation', {})
        .slice(3)
        .every((flag) => flag !== 2),
    ).toBe(true)
    expect(
      run(
        value.map((each) => (each - 1e9) / 100 + 1e9),
        'standard deviation',
      ).slice(3),
    ).toEqual(value.slice(3).map(() => 4))
  })

  // Common practice, no source: a sensor put back into its bag sees a few lx, day and night.
  test('finds a simulated covered light sensor with precision and recall of at least 0.95', () => {
    const runs = Array.from({ length: 6 }, (_, seed) => {
      const chance = seeded(seed)
      const clean = quadratOf(seed, 0.2, 600_000, 144 * 40).illuminance
      const isCovered = (n: number) => n >= 144 * 5 && n < 144 * 35
      const value = clean.value.map((lux, n) => (isCovered(n) ? 3 + 0.5 * chance.normal() : lux))
      // nothing can be said before a whole day has been seen
      const isFaulty = clean.value.map((_, n) => isCovered(n) && n >= 144 * 6)
      return {
        isFaulty,
        findings: attenuatedSignal.run(
          { ...clean, value },
          attenuatedSignal.defaults['illuminance']!,
          alone(),
        ),
      }
    })
    const { precision, recall } = scoreOf(runs)
    expect(Math.min(precision, recall)).toBeGreaterThanOrEqual(0.95)
  })
})
