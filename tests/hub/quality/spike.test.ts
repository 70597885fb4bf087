import { describe, expect, test } from 'vitest'
import { spike } from '../../../hub/quality/spike.ts'
import reference from '../../reference/qc.json' with { type: 'json' }
import { quadratOf } from './field.ts'
import { scoreOf } from './score.ts'
import { seeded } from './seeded.ts'
import { alone, flagsOf, seriesOf } from './series.ts'

const flags = (
  value: (number | null)[],
  suspectDifference: number,
  failDifference: number,
  differenceIs = 'absolute',
) =>
  flagsOf(
    spike.run(
      seriesOf(value),
      spike.config.parse({ differenceIs, suspectDifference, failDifference }),
      alone(),
    ),
    value,
  )

// Source: QARTOD manuals, spike test; worked cases s1–s5 of tests/reference/qc.json.
describe('spike test', () => {
  test.each(reference.spike)('case $id', ({ values, low, high, flags: expected }) => {
    expect(flags(values, low, high)).toEqual(expected)
  })

  test('below, at, at and above both limits; equality passes', () => {
    for (const side of [1, -1])
      expect([1.999, 2, 4, 4.001].map((size) => flags([0, side * size, 0], 2, 4)[1])).toEqual([1, 1, 3, 4])
  })

  test('the rounding of binary numbers lifts nothing over a limit', () => {
    expect(flags([0.1, 0.4, 0.1], 0.3, 1)).toEqual([2, 1, 2])
    expect(flags([5.91, 5.93, 5.91], 0.02, 1)).toEqual([2, 1, 2])
  })

  test('the relative variant measures in shares of the neighbours’ mean', () => {
    expect(flags([100, 150, 100], 0.5, 2, 'share')[1]).toBe(1)
    expect(flags([100, 151, 100], 0.5, 2, 'share')[1]).toBe(3)
    expect(flags([100, 301, 100], 0.5, 2, 'share')[1]).toBe(4)
    expect(flags([-1, -1.6, -1], 0.5, 2, 'share')[1]).toBe(3)
  })

  test('beside a gap in time nothing is evaluated', () => {
    const value = [1, 1, 9, 1, 1, 1]
    const timeMs = [0, 1000, 2000, 9000, 10_000, 11_000]
    const config = spike.defaults['soil_temperature']!
    expect(flagsOf(spike.run(seriesOf(value, { timeMs }), config, alone()), value)).toEqual([
      2, 3, 2, 2, 1, 2,
    ])
  })

  test('a fail limit below the suspect limit is refused', () => {
    expect(
      spike.config.safeParse({ differenceIs: 'absolute', suspectDifference: 2, failDifference: 1 }).success,
    ).toBe(false)
  })

  // Common practice, no source. A spike of more than twice a limit marks its shoulders as well (case s1), so the small
  // ones are looked for among the suspect flags and the large ones among the fail flags.
  test.each([
    { low: 0.36, high: 0.55, atLeast: 3 as const },
    { low: 1.1, high: 1.9, atLeast: 4 as const },
  ])(
    'finds simulated spikes of $low to $high pH with precision and recall of at least 0.95',
    ({ low, high, atLeast }) => {
      const runs = Array.from({ length: 10 }, (_, seed) => {
        const chance = seeded(seed)
        const clean = quadratOf(seed, 0.5, 10_000, 2000).soil_ph
        const isFaulty = clean.value.map((_, n) => n % 20 === 10 && chance.uniform() < 0.5)
        const value = clean.value.map((ph, n) =>
          isFaulty[n] ? ph! + Math.sign(chance.normal()) * chance.between(low, high) : ph,
        )
        return { isFaulty, findings: spike.run({ ...clean, value }, spike.defaults['soil_ph']!, alone()) }
      })
      const { precision, recall } = scoreOf(runs, atLeast)
      expect(Math.min(precision, recall)).toBeGreaterThanOrEqual(0.95)
    },
  )
})
