import { describe, expect, test } from 'vitest'
import { knownQuantities, quantityFacts } from '../../../hub/contract/quantity-facts.ts'

import { aggregateFlags, aggregateReasons } from '../../../hub/quality/aggregate-flags.ts'
import { isCleanReading } from '../../../hub/quality/clean.ts'
import { testClock } from '../../../hub/quality/clock.ts'
import { testRange } from '../../../hub/quality/range.ts'
import { testRemarks } from '../../../hub/quality/remark.ts'
import reference from '../../reference/qc.json' with { type: 'json' }

// Source of the rules: QARTOD manuals, gross range test; of the order: tests/reference/qc.json, where provenance is stated.
describe('gross range test', () => {
  test.each(knownQuantities.map(({ name }) => name))('%s: below, at, at and above each limit', (name) => {
    const { failSpan, suspectSpan } = quantityFacts(name)!
    const flagOf = (value: number) => testRange(name, value)?.flag ?? 1
    const step = 1e-6
    expect(flagOf(failSpan[0] - step)).toBe(4)
    expect(flagOf(failSpan[1] + step)).toBe(4)
    // a value equal to a fail limit is not a fail; equal to a suspect limit it passes (case g3)
    expect(flagOf(failSpan[0])).toBe(failSpan[0] < suspectSpan[0] ? 3 : 1)
    expect(flagOf(failSpan[1])).toBe(failSpan[1] > suspectSpan[1] ? 3 : 1)
    for (const limit of suspectSpan) expect(flagOf(limit)).toBe(1)
    if (failSpan[0] < suspectSpan[0]) expect(flagOf(suspectSpan[0] - step)).toBe(3)
    expect(flagOf(suspectSpan[1] + step)).toBe(3)
  })
  test('a quantity without known spans is not judged', () => {
    expect(testRange('leaf_wetness', 1e9)).toBeNull()
  })
  test('the reason quotes the value and the limits', () => {
    expect(testRange('soil_ph', 14.2)?.text).toBe('14.2 pH is outside what is possible, 0 to 14')
  })
})

describe('one flag out of many', () => {
  test('the roll-up order is the published one: missing, not evaluated, pass, suspect, fail', () => {
    const order = reference.flags.roll_up_order_low_to_high as (1 | 2 | 3 | 4 | 9)[]
    for (const [high, worse] of order.entries())
      for (const better of order.slice(0, high + 1)) {
        expect(aggregateFlags([better, worse])).toBe(worse)
        expect(aggregateFlags([worse, better])).toBe(worse)
      }
  })
  test('not evaluated never outranks pass; without any test a value is not evaluated', () => {
    expect(aggregateFlags([1, 2])).toBe(1)
    expect(aggregateReasons([], false)).toBe(2)
    expect(aggregateReasons([], true)).toBe(1)
  })
})

test('a board’s impossible clock makes a reading suspect; the other origins do not', () => {
  expect(testClock('shifted to arrival')?.flag).toBe(3)
  for (const origin of ['board clock', 'board seconds', 'arrival'] as const)
    expect(testClock(origin)).toBeNull()
})

test('saturation is a flag, not a value; calm is no fault', () => {
  expect(testRemarks(['saturated'])).toMatchObject([{ test: 'saturated', flag: 4 }])
  expect(testRemarks(['calm', 'not-temperature-compensated'])).toEqual([])
})

test('a test that could not run does not make a reading unclean; suspect and fail do', () => {
  expect(([1, 2, 3, 4, 9] as const).map((flag) => isCleanReading({ value: 1, flag }))).toEqual([
    true,
    true,
    false,
    false,
    false,
  ])
  expect(isCleanReading({ value: null, flag: 2 })).toBe(false)
})
