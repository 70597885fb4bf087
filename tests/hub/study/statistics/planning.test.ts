import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { studentTQuantile } from '../../../../calibration/index.ts'
import { circularMeanOfDay } from '../../../../hub/study/statistics/circular-mean.ts'
import { runningMean } from '../../../../hub/study/statistics/running-mean.ts'
import { sampleSize } from '../../../../hub/study/statistics/sample-size.ts'
import { answered, refusedWith } from './answered.ts'

const at = (hours: number, minutes: number) => 3600 * hours + 60 * minutes

describe('circularMeanOfDay', () => {
  test('23:50 and 00:10 give midnight, not noon', () => {
    // domain knowledge of the trade: a mean of clock times goes round the clock
    expect(answered(circularMeanOfDay([at(23, 50), at(0, 10)])).secondsOfDay).toBe(0)
    // as far before midnight as after it: never a trace below, which would read as the end of the day
    for (let seconds = 1; seconds < 20_000; seconds += 7) {
      expect(answered(circularMeanOfDay([86_400 - seconds, seconds])).secondsOfDay).toBe(0)
    }
  })

  test('agrees with scipy', () => {
    // scipy 1.17.1 circmean and circvar with high=86400
    const found = answered(circularMeanOfDay([at(9, 30), at(10, 15), at(13, 0)]))
    expect(found.secondsOfDay).toBeCloseTo(39214.108741409415, 2)
    expect(found.resultantLength).toBeCloseTo(1 - 0.0760728122855221, 12)
  })

  test('times that cancel out have no mean', () => {
    expect(answered(circularMeanOfDay([at(6, 0), at(18, 0)])).secondsOfDay).toBeNull()
    refusedWith(circularMeanOfDay([]), 'E_TOO_FEW')
  })

  test('a later clock moves the mean with it', () => {
    const morning = fc.array(fc.integer({ min: at(8, 0), max: at(12, 0) }), { minLength: 1, maxLength: 12 })
    fc.assert(
      fc.property(morning, fc.integer({ min: 0, max: 86_399 }), (times, shift) => {
        const one = answered(circularMeanOfDay(times)).secondsOfDay!
        const other = answered(circularMeanOfDay(times.map((time) => time + shift))).secondsOfDay!
        const apart = Math.abs(((other - one - shift + 43_200 + 2 * 86_400) % 86_400) - 43_200)
        expect(apart).toBeLessThan(0.01)
      }),
      { seed: 61 },
    )
  })
})

describe('runningMean', () => {
  test('settled when the last three running means lie within 5 % of the final one', () => {
    // by hand: means 10, 15, 10, 10, 10, final 10, from the third on within ±0.5
    const found = answered(runningMean([10, 20, 0, 10, 10]))
    expect(found.means).toEqual([10, 15, 10, 10, 10])
    expect(found).toMatchObject({ isSettled: true, settledAt: 3 })
  })

  test('below, at and above the tolerance', () => {
    // three values: means a, (a + b)/2, 100; the first is what decides
    const settled = (first: number) => answered(runningMean([first, 200 - first, 100])).isSettled
    expect([settled(95.1), settled(95), settled(94.9)]).toEqual([true, true, false])
    expect([settled(104.9), settled(105), settled(105.1)]).toEqual([true, true, false])
  })

  test('still climbing is not settled, and two values cannot tell', () => {
    expect(answered(runningMean([1, 2, 4, 8, 16]))).toMatchObject({ isSettled: false, settledAt: null })
    expect(answered(runningMean([5, 5]))).toMatchObject({ isSettled: null, settledAt: null })
    expect(answered(runningMean([0, 0, 0]))).toMatchObject({ isSettled: true, settledAt: 1 })
    refusedWith(runningMean([]), 'E_TOO_FEW')
    refusedWith(runningMean([1], 0), 'E_LEVEL')
  })
})

describe('sampleSize', () => {
  const cover = [12, 5, 8, 20, 15, 3]

  test('±15 % of the mean of these six needs 67 quadrats; so far ±64 %', () => {
    // scipy 1.17.1 t.ppf, counting n up until n ≥ (t s/(0.15 mean))²
    const found = answered(sampleSize(cover, 0.15))
    expect(found).toMatchObject({ n: 6, needed: 67, more: 61 })
    expect(found.precisionSoFar).toBeCloseTo(0.6407482386988111, 9)
  })

  test('the number is the least: it reaches the precision and one fewer does not', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.05, max: 1, noNaN: true }), (precision) => {
        const { needed } = answered(sampleSize(cover, precision))
        const mean = 10.5
        // Σd² = 205.5 by hand
        const deviation = Math.sqrt(205.5 / 5)
        const half = (n: number) => (studentTQuantile(0.975, n - 1) * deviation) / Math.sqrt(n) / mean
        expect(half(needed)).toBeLessThanOrEqual(precision * (1 + 1e-12))
        if (needed > 2) expect(half(needed - 1)).toBeGreaterThan(precision)
      }),
      { seed: 62 },
    )
  })

  test('enough already asks for no more', () => {
    expect(answered(sampleSize([10, 10, 10], 0.1))).toMatchObject({ needed: 2, more: 0, precisionSoFar: 0 })
  })

  test('one quadrat, a mean of 0, no precision and millions are refused', () => {
    refusedWith(sampleSize([5], 0.1), 'E_TOO_FEW')
    refusedWith(sampleSize([0, 0], 0.1), 'E_CONSTANT')
    refusedWith(sampleSize(cover, 0), 'E_LEVEL')
    refusedWith(sampleSize(cover, 0.0001), 'E_TOO_MANY')
  })
})
