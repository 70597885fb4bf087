import { describe, expect, test } from 'vitest'
import { flatLine } from '../../../hub/quality/flat-line.ts'
import reference from '../../reference/qc.json' with { type: 'json' }
import { quadratOf, transectAround } from './field.ts'
import { scoreOf } from './score.ts'
import { alone, flagsOf, seriesOf } from './series.ts'

// Source: QARTOD manuals, flat line test; worked cases f1–f4 of tests/reference/qc.json. The manual contradicts itself by
// one: these follow its loop (`flags`), not its prose (`flags_by_prose`).
describe('flat line test', () => {
  test.each(reference.flat_line)(
    'case $id, by the manual’s loop',
    ({ values, eps, rep_cnt_suspect, rep_cnt_fail, flags: expected }) => {
      const config = flatLine.config.parse({
        compares: 'value',
        tolerance: eps,
        suspect: { repeats: rep_cnt_suspect, durationMs: 0 },
        fail: { repeats: rep_cnt_fail, durationMs: 0 },
        daylight: null,
      })
      expect(flagsOf(flatLine.run(seriesOf(values), config, alone()), values)).toEqual(expected)
    },
  )

  const stuck = (count: number, more: object = {}) => {
    const config = { ...flatLine.defaults['soil_ph']!, suspect: { repeats: 3, durationMs: 5000 }, ...more }
    const value = Array.from({ length: count }, () => 6)
    return flagsOf(flatLine.run(seriesOf(value), config, alone()), value)
  }

  test('count and duration must both be reached: before, at and after', () => {
    expect(stuck(8)).toEqual([1, 1, 1, 1, 1, 3, 3, 3])
    expect(stuck(8, { suspect: { repeats: 6, durationMs: 1000 } })).toEqual([1, 1, 1, 1, 1, 1, 3, 3])
  })

  test('within the tolerance is equal, at it too, beyond it not', () => {
    const flag = (last: number) =>
      flagsOf(
        flatLine.run(
          seriesOf([20, 20, 20, last]),
          {
            compares: 'value',
            tolerance: 0.1,
            suspect: { repeats: 3, durationMs: 0 },
            fail: null,
            daylight: null,
          },
          alone(),
        ),
        [0, 0, 0, 0],
      )[3]
    expect([19.89, 19.9, 20.1, 20.11].map(flag)).toEqual([1, 3, 3, 1])
  })

  test('a gap and a missing value begin anew', () => {
    const config = {
      ...flatLine.defaults['soil_ph']!,
      compares: 'value' as const,
      suspect: { repeats: 2, durationMs: 0 },
    }
    const run = (value: (number | null)[], timeMs: number[]) =>
      flagsOf(flatLine.run(seriesOf(value, { timeMs }), config, alone()), value)
    expect(run([6, 6, 6, 6, 6], [0, 1000, 9000, 10_000, 11_000])).toEqual([1, 1, 1, 1, 3])
    expect(run([6, 6, null, 6, 6, 6], [0, 1000, 2000, 3000, 4000, 5000])).toEqual([1, 1, 9, 1, 1, 3])
  })

  // Common practice, no source: night is dark, and dim light moves by less than a step of the sensor.
  test('light that stands still is a fault by day only', () => {
    const config = flatLine.defaults['illuminance']!
    const last = (lux: number, sunDegrees: number | null) => {
      const value = Array.from({ length: 100 }, () => lux)
      const around = alone({ solarElevationDegrees: () => sunDegrees })
      return flagsOf(
        flatLine.run(seriesOf(value, { quantity: 'illuminance', signalUnit: 'lx' }), config, around),
        value,
      )[99]
    }
    expect([last(0, -20), last(0, null), last(0, 30)]).toEqual([1, 1, 3])
    expect([last(5000, -20), last(5000, null), last(5000, 30)]).toEqual([1, 3, 3])
    expect([last(199, 30), last(200, 30), last(200, 9.9), last(200, 10)]).toEqual([1, 3, 1, 3])
  })

  test('deep soil at steps of 0.0625 °C may stand still for hours, not for a day and a night', () => {
    const config = flatLine.defaults['soil_temperature']!
    const value = Array.from({ length: 1500 }, () => 11.0625)
    const flags = flagsOf(
      flatLine.run(seriesOf(value, { expectedIntervalMs: 60_000 }), config, alone()),
      value,
    )
    expect(flags.indexOf(3)).toBe(1440)
  })

  // Common practice, no source: a converter or a board that sends its last number again and again.
  test.each(['soil_ph', 'soil_moisture', 'illuminance'] as const)(
    '%s: finds a simulated stuck signal with precision and recall of at least 0.95',
    (quantity) => {
      const runs = Array.from({ length: 8 }, (_, seed) => {
        const own = quadratOf(seed, 0.9, 1000, 5000)
        const clean = own[quantity]
        const isFaulty = clean.signal.map((_, n) => n >= 1500 && n < 4500)
        const signal = clean.signal.map((each, n) => (isFaulty[n] ? clean.signal[1500]! : each))
        const findings = flatLine.run(
          { ...clean, signal },
          flatLine.defaults[quantity]!,
          transectAround(own, [], quantity),
        )
        return { isFaulty, findings }
      })
      const { precision, recall } = scoreOf(runs)
      expect(Math.min(precision, recall)).toBeGreaterThanOrEqual(0.95)
    },
  )
})
