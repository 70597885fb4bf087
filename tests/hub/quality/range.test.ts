import { describe, expect, test } from 'vitest'
import { range } from '../../../hub/quality/range.ts'
import reference from '../../reference/qc.json' with { type: 'json' }
import { scoreOf } from './score.ts'
import { seeded } from './seeded.ts'
import { alone, flagsOf, seriesOf } from './series.ts'

const flags = (value: (number | null)[], failSpan: number[], suspectSpan: number[] | null) =>
  flagsOf(
    range.run(seriesOf(value), range.config.parse({ failSpan, suspectSpan, signalSpans: {} }), alone()),
    value,
  )

// Source: QARTOD manuals, gross range test; worked cases g1–g5 of tests/reference/qc.json.
describe('gross range test on a series', () => {
  test.each(reference.gross_range)('case $id', ({ values, fail_span, suspect_span, flags: expected }) => {
    expect(flags(values, fail_span, suspect_span)).toEqual(expected)
  })

  test('below, at, at and above every limit', () => {
    expect(flags([-0.001, 0, 14, 14.001], [0, 14], [0, 14])).toEqual([4, 1, 1, 4])
    expect(flags([2.999, 3, 9.5, 9.501], [0, 14], [3, 9.5])).toEqual([3, 1, 1, 3])
  })

  test('a raw signal outside its own span fails, with or without a value; other units are left alone', () => {
    const config = range.config.parse({
      failSpan: [0, 14],
      suspectSpan: null,
      signalSpans: { mV: [-500, 500] },
    })
    const signal = [-500.1, -500, 500, 500.1]
    const flagOf = (value: number | null) =>
      range
        .run(seriesOf([value, value, value, value], { signal, signalUnit: 'mV' }), config, alone())
        .map((each) => (typeof each === 'string' ? each : (each?.flag ?? null)))
    expect(flagOf(7)).toEqual([4, null, null, 4])
    expect(flagOf(null)).toEqual([4, 'not evaluated', 'not evaluated', 4])
    expect(range.run(seriesOf([7], { signal: [2500], signalUnit: 'V' }), config, alone())).toEqual([null])
  })

  test('limits that contradict each other are refused', () => {
    expect(range.config.safeParse({ failSpan: [0, 14], suspectSpan: [-1, 9], signalSpans: {} }).success).toBe(
      false,
    )
    expect(range.config.safeParse({ failSpan: [14, 0], suspectSpan: null, signalSpans: {} }).success).toBe(
      false,
    )
  })

  // Common practice, no source: a wire that breaks now and then sends values no soil has.
  test('finds simulated readings of a broken wire with precision and recall of at least 0.95', () => {
    const runs = Array.from({ length: 10 }, (_, seed) => {
      const chance = seeded(seed)
      const isFaulty = Array.from({ length: 1000 }, () => chance.uniform() < 0.03)
      const value = isFaulty.map((is) => (is ? chance.between(61, 300) : 12 + 3 * chance.normal()))
      return { isFaulty, findings: range.run(seriesOf(value), range.defaults['soil_temperature']!, alone()) }
    })
    const { precision, recall } = scoreOf(runs, 4)
    expect(Math.min(precision, recall)).toBeGreaterThanOrEqual(0.95)
  })
})
