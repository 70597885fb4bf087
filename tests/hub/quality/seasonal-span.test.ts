import { describe, expect, test } from 'vitest'
import { seasonalSpan } from '../../../hub/quality/seasonal-span.ts'
import { scoreOf } from './score.ts'
import { seeded } from './seeded.ts'
import { alone, flagsOf, seriesOf } from './series.ts'

const config = seasonalSpan.config.parse({ monthlySpans: { '1': [-2, 8], '7': [10, 24] } })
const at = (month: number, value: (number | null)[]) => {
  const timeMs = value.map((_, n) => Date.UTC(2026, month - 1, 15) + n * 1000)
  return flagsOf(seasonalSpan.run(seriesOf(value, { timeMs }), config, alone()), value)
}

// Source: QARTOD manuals, climatology test.
describe('what is usual for the month', () => {
  test('below, at, at and above: suspect, never fail', () => {
    expect(at(1, [-2.01, -2, 8, 8.01])).toEqual([3, 1, 1, 3])
    expect(at(7, [9.99, 10, 24, 24.01, null])).toEqual([3, 1, 1, 3, 9])
  })

  test('a month without a span is not evaluated, and there are no spans by default', () => {
    expect(at(3, [100])).toEqual([2])
    expect(seasonalSpan.defaults).toEqual({})
  })

  test('a month is that of the year in UTC, at both of its ends', () => {
    const timeMs = [Date.UTC(2026, 0, 1), Date.UTC(2026, 1, 1) - 1, Date.UTC(2026, 1, 1)]
    expect(flagsOf(seasonalSpan.run(seriesOf([9, 9, 9], { timeMs }), config, alone()), [9, 9, 9])).toEqual([
      3, 3, 2,
    ])
  })

  test('a thirteenth month is refused', () => {
    expect(seasonalSpan.config.safeParse({ monthlySpans: { '13': [0, 1] } }).success).toBe(false)
  })

  // Common practice, no source: a probe left in the classroom in January.
  test('finds a simulated stay indoors with precision and recall of at least 0.95', () => {
    const runs = Array.from({ length: 10 }, (_, seed) => {
      const chance = seeded(seed)
      const isFaulty = Array.from({ length: 500 }, (_, n) => n >= 200 && n < 300)
      const value = isFaulty.map((is) => (is ? 19 : 3) + 1.5 * chance.normal())
      const timeMs = value.map((_, n) => Date.UTC(2026, 0, 10) + n * 60_000)
      return { isFaulty, findings: seasonalSpan.run(seriesOf(value, { timeMs }), config, alone()) }
    })
    const { precision, recall } = scoreOf(runs)
    expect(Math.min(precision, recall)).toBeGreaterThanOrEqual(0.95)
  })
})
