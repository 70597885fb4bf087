import { describe, expect, test } from 'vitest'
import { rateOfChange } from '../../../hub/quality/rate-of-change.ts'
import reference from '../../reference/qc.json' with { type: 'json' }
import { quadratOf } from './field.ts'
import { scoreOf } from './score.ts'
import { alone, flagsOf, seriesOf } from './series.ts'

const flags = (value: (number | null)[], timeMs: number[], perSecond: number, baselineMs = 0) => {
  const series = seriesOf(value, { timeMs, expectedIntervalMs: null })
  const config = rateOfChange.config.parse({ suspectPerHour: perSecond * 3600, baselineMs })
  return flagsOf(rateOfChange.run(series, config, alone()), value)
}

// Source: QARTOD manuals, rate of change test, with a fixed rate; worked cases r1–r4 of tests/reference/qc.json.
describe('rate of change test', () => {
  test.each(reference.rate_of_change)('case $id', ({ values, t_s, limit_per_s, flags: expected }) => {
    expect(
      flags(
        values,
        t_s.map((seconds) => seconds * 1000),
        limit_per_s,
      ),
    ).toEqual(expected)
  })

  test('below, at, at and above the limit, up and down; equality passes', () => {
    const second = (change: number) => flags([10, 10 + change], [0, 10_000], 0.05)[1]
    expect([0.499, 0.5, -0.5, -0.499, 0.501, -0.501].map(second)).toEqual([1, 1, 1, 1, 3, 3])
  })

  test('two readings of one moment have no rate', () => {
    expect(flags([10, 90, 90], [0, 0, 1000], 1)).toEqual([2, 2, 1])
  })

  test('after a gap the first reading is not evaluated', () => {
    const series = seriesOf([10, 90, 90], { timeMs: [0, 5000, 6000] })
    const config = rateOfChange.config.parse({ suspectPerHour: 3600, baselineMs: 0 })
    expect(flagsOf(rateOfChange.run(series, config, alone()), [10, 90, 90])).toEqual([2, 2, 1])
  })

  // Common practice, no source: without a baseline, noise a second apart is hundreds of times the limit of soil.
  test('with a baseline the noise between two seconds is no change, and an old spike is not blamed on a new reading', () => {
    const noisy = Array.from({ length: 30 }, (_, n) => 10 + 0.1 * (n % 2))
    const timeMs = noisy.map((_, n) => n * 1000)
    expect(flags(noisy, timeMs, 0.05).slice(1)).toEqual(noisy.slice(1).map(() => 3))
    expect(flags(noisy, timeMs, 0.05, 10_000).slice(10)).toEqual(noisy.slice(10).map(() => 1))
    const spiked = noisy.map((value, n) => (n === 12 ? 20 : value))
    expect(flags(spiked, timeMs, 0.05, 10_000).flatMap((flag, n) => (flag === 3 ? [n] : []))).toEqual([12])
  })

  // Common practice, no source: a probe pulled out into warm air, 0.05 °C/s for twenty minutes.
  test('finds a simulated runaway with precision and recall of at least 0.95', () => {
    const runs = Array.from({ length: 10 }, (_, seed) => {
      const clean = quadratOf(seed, 0.5, 10_000, 1000).soil_temperature
      const isFaulty = clean.value.map((_, n) => n >= 400 && n < 520)
      const value = clean.value.map((celsius, n) => celsius! + 0.2 * Math.max(0, Math.min(n - 400, 120)))
      return {
        isFaulty,
        findings: rateOfChange.run({ ...clean, value }, rateOfChange.defaults['soil_temperature']!, alone()),
      }
    })
    const { precision, recall } = scoreOf(runs)
    expect(Math.min(precision, recall)).toBeGreaterThanOrEqual(0.95)
  })
})
