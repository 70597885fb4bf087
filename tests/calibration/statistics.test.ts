import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { fitPolynomial, type Polynomial } from '../../calibration/fit/polynomial.ts'
import {
  CalibrationError,
  combine,
  coverageFactor,
  expandedUncertainty,
  fitLine,
  fitLineThroughOrigin,
  fromHalfWidth,
  isRefusal,
  type Line,
  normalCdf,
  normalQuantile,
  studentTCdf,
  studentTQuantile,
} from '../../calibration/index.ts'
import { expectRefusal } from './expect-fitted.ts'
import { referenceJson, referenceRows } from './reference-files.ts'

const nist = referenceJson('stats-nist-linear.json')

describe('straight lines', () => {
  test('Norris: certified slope, intercept, standard errors and residual deviation', () => {
    // NIST StRD Norris, certified to 15 digits; nine significant digits asked for here
    const { x, y, certified } = nist.Norris
    const line = fitLine(x, y) as Line
    expect(line.slope / Number(certified.B1)).toBeCloseTo(1, 10)
    expect(line.intercept / Number(certified.B0)).toBeCloseTo(1, 9)
    expect(line.slopeStandardError! / Number(certified.B1_sd)).toBeCloseTo(1, 9)
    expect(line.interceptStandardError! / Number(certified.B0_sd)).toBeCloseTo(1, 9)
    expect(line.residualStandardDeviation! / Number(certified.residual_sd)).toBeCloseTo(1, 9)
    expect(line.degreesOfFreedom).toBe(certified.df)
  })

  test('NoInt1: certified slope through the origin', () => {
    // NIST StRD NoInt1
    const { x, y, certified } = nist.NoInt1
    const line = fitLineThroughOrigin(x, y)
    if (isRefusal(line)) throw new Error(line.message)
    expect(line.slope / Number(certified.B1)).toBeCloseTo(1, 12)
    expect(line.slopeStandardError! / Number(certified.B1_sd)).toBeCloseTo(1, 10)
    expect(line.residualStandardDeviation! / Number(certified.residual_sd)).toBeCloseTo(1, 10)
  })

  test('two points are met and leave no error to see; fewer, unpaired or equal are refused', () => {
    const line = fitLine([1, 3], [2, 8]) as Line
    expect(line).toMatchObject({
      slope: 3,
      intercept: -1,
      slopeStandardError: null,
      residualStandardDeviation: null,
    })
    expectRefusal(fitLine([], []), 'E_POINTS_FEW')
    expectRefusal(fitLine([1], [1]), 'E_POINTS_FEW')
    expectRefusal(fitLine([1, 2], [1]), 'E_POINTS_FEW')
    expectRefusal(fitLine([2, 2, 2], [1, 2, 3]), 'E_SAME_REFERENCE')
    expectRefusal(fitLine([0.1, 0.1, 0.1], [1, 2, 3]), 'E_SAME_REFERENCE')
    expectRefusal(fitLineThroughOrigin([0, 0], [1, 2]), 'E_SAME_REFERENCE')
    expectRefusal(fitLineThroughOrigin([], []), 'E_POINTS_FEW')
  })

  test('exact lines are found again wherever they lie', () => {
    const number = fc.double({ min: -1000, max: 1000, noNaN: true })
    fc.assert(
      fc.property(
        number,
        number,
        fc.uniqueArray(fc.integer({ min: -500, max: 500 }), { minLength: 2 }),
        (a, b, x) => {
          const line = fitLine(
            x,
            x.map((each) => a + b * each),
          ) as Line
          expect(line.slope).toBeCloseTo(b, 6)
          expect(line.intercept).toBeCloseTo(a, 5)
        },
      ),
      { seed: 4 },
    )
  })

  test('a line by the polynomial fit is the same line, with the same leverage', () => {
    const { x, y } = nist.Norris
    const line = fitLine(x, y) as Line
    const same = fitPolynomial(x, y, 1) as Polynomial
    expect(same.coefficients[1]).toBeCloseTo(line.slope, 10)
    expect(same.residualStandardDeviation).toBeCloseTo(line.residualStandardDeviation!, 10)
    expect(same.leverageAt(500)).toBeCloseTo(1 / 36 + (500 - line.meanX) ** 2 / line.sumSquaresX, 12)
  })

  test('an exact parabola is found again', () => {
    const x = [400, 900, 1300, 2000, 3100]
    const curve = fitPolynomial(
      x,
      x.map((each) => 0.6 - 3e-4 * each + 4e-8 * each * each),
      2,
    ) as Polynomial
    expect(curve.coefficients[0]).toBeCloseTo(0.6, 9)
    expect(curve.coefficients[1]! / -3e-4).toBeCloseTo(1, 8)
    expect(curve.coefficients[2]! / 4e-8).toBeCloseTo(1, 8)
    expectRefusal(fitPolynomial([1, 2, 1, 2], [1, 2, 3, 4], 2), 'E_POINTS_FEW')
  })
})

describe('Student’s t', () => {
  test('every critical value of the table to its six decimals', () => {
    // stats-t-critical.csv, two independent programs agreeing
    for (const row of referenceRows('stats-t-critical.csv')) {
      const degrees = row['df'] === 'inf' ? Number.POSITIVE_INFINITY : Number(row['df'])
      for (const [column, tails] of [
        ['two_tailed_0.10', 0.1],
        ['0.05', 0.05],
        ['0.02', 0.02],
        ['0.01', 0.01],
        ['0.001', 0.001],
      ] as const) {
        const t = -studentTQuantile(tails / 2, degrees)
        expect(Math.abs(t - Number(row[column])), `${row['df']} ${column}`).toBeLessThan(6e-7)
      }
    }
  })

  test('closed forms: one degree is Cauchy, two is algebraic', () => {
    for (const p of [0.6, 0.9, 0.975, 0.9995]) {
      expect(studentTQuantile(p, 1) / Math.tan(Math.PI * (p - 0.5))).toBeCloseTo(1, 10)
      expect(studentTQuantile(p, 2)).toBeCloseTo((2 * p - 1) * Math.sqrt(2 / (4 * p * (1 - p))), 10)
    }
  })

  test('probability and quantile undo each other, for broken degrees of freedom too', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 0.999, noNaN: true }),
        fc.double({ min: 0.5, max: 1e6, noNaN: true }),
        (probability, degrees) => {
          expect(studentTCdf(studentTQuantile(probability, degrees), degrees)).toBeCloseTo(probability, 9)
        },
      ),
      { seed: 6 },
    )
  })

  test('the normal distribution: symmetric, known points, undone', () => {
    expect(normalCdf(0)).toBe(0.5)
    expect(normalCdf(1)).toBeCloseTo(0.8413447460685429, 12)
    expect(normalCdf(-4)).toBeCloseTo(3.167124183311986e-5, 15)
    expect(normalCdf(Number.NaN)).toBeNaN()
    for (const p of [1e-9, 0.001, 0.025, 0.5, 0.8, 0.9999])
      expect(normalCdf(normalQuantile(p)) / p).toBeCloseTo(1, 9)
  })

  test('probabilities and degrees of freedom that cannot be are thrown, not answered', () => {
    expect(() => studentTQuantile(0, 5)).toThrow(CalibrationError)
    expect(() => studentTQuantile(1, 5)).toThrow(/E_PROBABILITY/)
    expect(() => studentTQuantile(0.5, 0)).toThrow(/E_DEGREES_OF_FREEDOM/)
    expect(() => studentTCdf(1, Number.NaN)).toThrow(/E_DEGREES_OF_FREEDOM/)
  })
})

describe('combining uncertainties', () => {
  test('instrument 0.038 and three replicates 0.069: u 0.079, 3.4 degrees of freedom, ± 0.24 at 95 %', () => {
    // JCGM 100:2008 G.4.1; k = 2 would say ± 0.16
    const combined = combine([
      { standardUncertainty: 0.0384, degreesOfFreedom: Number.POSITIVE_INFINITY },
      { standardUncertainty: 0.12 / Math.sqrt(3), degreesOfFreedom: 2 },
    ])
    expect(combined.standardUncertainty).toBeCloseTo(0.079, 3)
    expect(combined.degreesOfFreedom).toBeCloseTo(3.4, 1)
    expect(expandedUncertainty(combined.standardUncertainty, combined.degreesOfFreedom)).toBeCloseTo(0.24, 2)
  })

  test('the guide’s own example: 0.25, 0.57 and 0.82 % on 9, 4 and 14 degrees of freedom give 1.03 % on 19, ± 2.2 %', () => {
    // JCGM 100:2008 G.4.1, EXAMPLE
    const combined = combine([
      { standardUncertainty: 0.25, degreesOfFreedom: 9 },
      { standardUncertainty: 0.57, degreesOfFreedom: 4 },
      { standardUncertainty: 0.82, degreesOfFreedom: 14 },
    ])
    expect(combined.standardUncertainty).toBeCloseTo(1.03, 2)
    expect(combined.degreesOfFreedom).toBeCloseTo(19, 0)
    expect(
      expandedUncertainty(combined.standardUncertainty, Math.floor(combined.degreesOfFreedom)),
    ).toBeCloseTo(2.2, 1)
  })

  test('stated limits alone have endless degrees of freedom and k = 1.96', () => {
    const combined = combine([
      { standardUncertainty: fromHalfWidth(0.3), degreesOfFreedom: Number.POSITIVE_INFINITY },
    ])
    expect(combined.degreesOfFreedom).toBe(Number.POSITIVE_INFINITY)
    expect(coverageFactor(combined.degreesOfFreedom)).toBeCloseTo(1.959964, 6)
    expect(combine([])).toEqual({ standardUncertainty: 0, degreesOfFreedom: Number.POSITIVE_INFINITY })
  })
})
