import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { describeValues } from '../../../../hub/study/statistics/describe.ts'
import { standardDeviation } from '../../../../hub/study/statistics/deviations.ts'
import { meanInterval } from '../../../../hub/study/statistics/mean-interval.ts'
import { meanUncertainty } from '../../../../hub/study/statistics/mean-uncertainty.ts'
import { ascending, median, quantileOfSorted } from '../../../../hub/study/statistics/quantile.ts'
import { referenceJson, referenceRows } from '../../../calibration/reference-files.ts'
import { seededRandom } from '../../../calibration/seeded-random.ts'
import { answered, digitsMet, refusedWith } from './answered.ts'

const nist = referenceJson('stats-nist-univariate.json')

/** One value, then 500 pairs of two others, as NIST generates NumAcc2–4. */
const pairs = (first: number, low: number, high: number) => [
  first,
  ...Array.from({ length: 1000 }, (_, k) => (k % 2 === 0 ? low : high)),
]

describe('NIST StRD, univariate: certified mean, standard deviation and lag-1 autocorrelation', () => {
  // stats-nist-univariate.json, certified to 15 digits. NumAcc3 and 4 are measured on a large mean: 10000000.1
  // is held by a double only to 1.9e-9, which is 2e-8 of the deviation of 0.1, so no program that starts from
  // doubles can meet more than about 8 digits of the deviation of NumAcc4, 9 of NumAcc3
  test.each<[string, readonly number[], { mean: number; sd: number; lag1: number }]>([
    ['Lew', nist.Lew.values, { mean: 14, sd: 14, lag1: 13 }],
    ['NumAcc1', nist.NumAcc1.values, { mean: 16, sd: 16, lag1: 16 }],
    ['NumAcc2', pairs(1.2, 1.1, 1.3), { mean: 15, sd: 14, lag1: 13 }],
    ['NumAcc4', pairs(10000000.2, 10000000.1, 10000000.3), { mean: 15, sd: 8, lag1: 8 }],
  ])('%s', (name, values, digits) => {
    const { certified } = nist[name]
    const found = answered(describeValues(values))
    expect(found.n).toBe(certified.n)
    expect(digitsMet(found.mean, Number(certified.mean))).toBeGreaterThanOrEqual(digits.mean)
    expect(digitsMet(found.standardDeviation, Number(certified.sd))).toBeGreaterThanOrEqual(digits.sd)
    expect(digitsMet(found.autocorrelationLag1, Number(certified.lag1))).toBeGreaterThanOrEqual(digits.lag1)
  })

  test('NumAcc3', () => {
    // NIST StRD NumAcc3, values and certified figures from memory: mean 1000000.2, deviation 0.1, lag 1 −0.999
    const found = answered(describeValues(pairs(1000000.2, 1000000.1, 1000000.3)))
    expect(digitsMet(found.mean, 1000000.2)).toBeGreaterThanOrEqual(15)
    expect(digitsMet(found.standardDeviation, 0.1)).toBeGreaterThanOrEqual(9)
    expect(digitsMet(found.autocorrelationLag1, -0.999)).toBeGreaterThanOrEqual(9)
  })
})

describe('describeValues', () => {
  test('one value has a mean and no spread, not a spread of 0', () => {
    expect(answered(describeValues([5.6]))).toEqual({
      n: 1,
      mean: 5.6,
      standardDeviation: null,
      standardError: null,
      median: 5.6,
      lowerQuartile: 5.6,
      upperQuartile: 5.6,
      minimum: 5.6,
      maximum: 5.6,
      autocorrelationLag1: null,
    })
    expect(standardDeviation([5.6])).toBeNull()
  })

  test('equal values have spread 0 and no autocorrelation', () => {
    expect(answered(describeValues([0.1, 0.1, 0.1]))).toMatchObject({
      standardDeviation: 0,
      autocorrelationLag1: null,
    })
  })

  test('pH of the lichen pastures as R gives it', () => {
    // eco-varespec-results.json: R 4.2.2
    const { pH } = referenceJson('eco-varespec-results.json')
    const found = answered(describeValues(referenceRows('eco-varechem.csv').map((row) => Number(row['pH']))))
    expect(found.n).toBe(pH.n)
    expect(digitsMet(found.mean, pH.mean)).toBeGreaterThan(14)
    expect(digitsMet(found.standardDeviation, pH.sd)).toBeGreaterThan(14)
    expect(found).toMatchObject({ median: pH.median, minimum: pH.min, maximum: pH.max })
  })

  test('a median of an even number is the mid-value, quartiles are of definition 7', () => {
    // numpy.quantile([1, 2, 4, 8, 16, 32], [.25, .5, .75]), numpy’s default is definition 7
    const sorted = [1, 2, 4, 8, 16, 32]
    expect([0.25, 0.5, 0.75].map((share) => quantileOfSorted(sorted, share))).toEqual([2.5, 6, 14])
    expect(answered(describeValues([32, 4, 1, 16, 2, 8]))).toMatchObject({
      lowerQuartile: 2.5,
      median: 6,
      upperQuartile: 14,
    })
    expect([quantileOfSorted(sorted, 0), quantileOfSorted(sorted, 1)]).toEqual([1, 32])
    expect(median([3, 1, 2])).toBe(2)
    expect(ascending([10, 9, 100])).toEqual([9, 10, 100])
  })

  test('what is no list of numbers is refused, and says which value', () => {
    expect(refusedWith(describeValues([]), 'E_TOO_FEW')).toContain('“x”')
    expect(refusedWith(describeValues([1, Number.NaN]), 'E_NOT_FINITE')).toContain('Value 2')
    refusedWith(describeValues([1, Number.POSITIVE_INFINITY]), 'E_NOT_FINITE')
  })

  test('a shift moves the mean and leaves the spread; order does not matter to either', () => {
    const list = fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 2, maxLength: 40 })
    fc.assert(
      fc.property(list, fc.integer({ min: -100000, max: 100000 }), (values, shift) => {
        const one = answered(describeValues(values))
        const other = answered(describeValues(values.map((value) => value + shift).reverse()))
        expect(other.mean).toBeCloseTo(one.mean + shift, 8)
        expect(other.standardDeviation).toBeCloseTo(one.standardDeviation!, 8)
        expect(other.median).toBeCloseTo(one.median + shift, 8)
      }),
      { seed: 21 },
    )
  })
})

describe('meanInterval', () => {
  test('agrees with scipy’s t interval', () => {
    // scipy 1.17.1: t.interval(0.95, 8, mean, sem) of these nine covers
    const found = answered(meanInterval([12, 0, 0.5, 35, 4, 0, 20, 8, 0]))
    expect(found.low).toBeCloseTo(-0.3706440429462514, 9)
    expect(found.high).toBeCloseTo(18.037310709612917, 9)
  })

  test('one value gives no interval; a level is inside 0–1', () => {
    refusedWith(meanInterval([5]), 'E_TOO_FEW')
    refusedWith(meanInterval([5, 6], 1), 'E_LEVEL')
    refusedWith(meanInterval([5, 6], Number.NaN), 'E_LEVEL')
  })
})

describe('meanUncertainty', () => {
  /** three replicates with s = 0.12 exactly */
  const replicates = [5.48, 5.6, 5.72]

  test('domain example: instrument 0.038 and s = 0.12 of three give u 0.079, 3.4 degrees, ± 0.24', () => {
    // worked by hand: u² = 0.0384² + 0.12²/3, ν = 0.079⁴/(0.0693⁴/2)
    const found = answered(meanUncertainty(replicates, { commonStandardUncertainty: 0.0384 }))
    expect(found.samplingStandardUncertainty).toBeCloseTo(0.0693, 4)
    expect(found.commonStandardUncertainty).toBe(0.0384)
    expect(found.standardUncertainty).toBeCloseTo(0.079, 3)
    expect(found.degreesOfFreedom).toBeCloseTo(3.4, 1)
    expect(found.expandedUncertainty).toBeCloseTo(0.24, 2)
    expect(found.high - found.low).toBeCloseTo(2 * found.expandedUncertainty, 12)
    expect(found.dominatedBy).toBe('sampling')
  })

  test('without an instrument it is the t interval', () => {
    const alone = answered(meanInterval(replicates))
    const found = answered(meanUncertainty(replicates))
    expect(found.low).toBeCloseTo(alone.low, 12)
    expect(found.high).toBeCloseTo(alone.high, 12)
    expect(found.degreesOfFreedom).toBeCloseTo(2, 12)
  })

  test('the independent part is not counted twice, and stands in where a coarse display hides all scatter', () => {
    const withScatter = answered(meanUncertainty(replicates, { independentStandardUncertainty: 0.01 }))
    expect(withScatter.standardUncertainty).toBeCloseTo(0.12 / Math.sqrt(3), 12)
    const coarse = answered(meanUncertainty([5.6, 5.6, 5.6, 5.6], { independentStandardUncertainty: 0.02 }))
    expect(coarse).toMatchObject({
      standardUncertainty: 0.01,
      degreesOfFreedom: Number.POSITIVE_INFINITY,
      dominatedBy: 'instrument',
    })
    expect(coarse.coverageFactor).toBeCloseTo(1.959964, 6)
  })

  test('one replicate has the instrument’s uncertainty only, and none at all is refused', () => {
    const one = answered(
      meanUncertainty([5.6], { commonStandardUncertainty: 0.03, independentStandardUncertainty: 0.04 }),
    )
    expect(one.samplingStandardUncertainty).toBeNull()
    expect(one.standardUncertainty).toBeCloseTo(0.05, 12)
    refusedWith(meanUncertainty([5.6]), 'E_TOO_FEW')
    refusedWith(meanUncertainty([5.6], { commonStandardUncertainty: -1 }), 'E_NEGATIVE')
  })

  test('more replicates shrink the sampling part and never what is common', () => {
    const many = Array.from({ length: 400 }, (_, k) => replicates[k % 3]!)
    const found = answered(meanUncertainty(many, { commonStandardUncertainty: 0.0384 }))
    expect(found.samplingStandardUncertainty!).toBeLessThan(0.006)
    expect(found.standardUncertainty).toBeGreaterThan(0.0384)
    expect(found.dominatedBy).toBe('instrument')
  })

  test.each([
    [3, 0.9265],
    [5, 0.9438],
    [10, 0.949],
  ])(
    'simulated: %i replicates hold the truth in a share of %f, more than twice the uncertainty does',
    (n, share) => {
      // shares of 400 000 intervals by the same formula in numpy and scipy 1.17.1, common 0.0384, scatter 0.12;
      // 4 standard errors of 4000 runs are at most 0.017. Below 0.95 because the degrees of freedom are estimated too
      const random = seededRandom(11)
      const runs = 4000
      let held = 0
      let heldByTwo = 0
      for (let run = 0; run < runs; run++) {
        const common = random.normal(0.0384)
        const values = Array.from({ length: n }, () => common + random.normal(0.12))
        const found = answered(meanUncertainty(values, { commonStandardUncertainty: 0.0384 }))
        if (found.low <= 0 && found.high >= 0) held++
        if (Math.abs(found.mean) <= 2 * found.standardUncertainty) heldByTwo++
      }
      expect(Math.abs(held / runs - share)).toBeLessThan(0.017)
      expect(heldByTwo).toBeLessThan(held)
    },
  )

  test('replicates that all agree, of a perfect instrument, have an interval of no width', () => {
    expect(answered(meanUncertainty([1, 1, 1]))).toMatchObject({ standardUncertainty: 0, low: 1, high: 1 })
  })
})
