import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { fitCalibration, nernstSlope, type PhElectrodeRecipe, type PhPoint } from '../../calibration/index.ts'
import { expectRefusal, fitted, readAt } from './expect-fitted.ts'
import { referenceJson } from './reference-files.ts'

function technical(readings: [millivolt: number, buffer: string][], celsius: number): PhPoint[] {
  return readings.map(([millivolt, buffer]) => ({
    millivolt,
    temperatureCelsius: celsius,
    bufferSet: 'technical',
    buffer,
  }))
}

function typed(readings: [millivolt: number, ph: number][], celsius: number): PhPoint[] {
  return readings.map(([millivolt, ph]) => ({ millivolt, ph, temperatureCelsius: celsius }))
}

function electrode(points: PhPoint[], more: Partial<PhElectrodeRecipe> = {}): PhElectrodeRecipe {
  return { kind: 'ph-electrode', points, ...more }
}

const codes = (recipe: PhElectrodeRecipe) => fitted(recipe).advice.map((each) => each.code)

describe('a pH electrode against two buffers', () => {
  test('published arithmetic: slope, share of the theory, offset, zero point and samples', () => {
    // ph-calibration-cases.json, computed from the definition with CODATA 2018
    for (const { temp_C, buffers, expect: wanted, sample_mV, sample_pH } of referenceJson(
      'ph-calibration-cases.json',
    ).cases) {
      const curve = fitted(
        electrode(
          typed(
            buffers.map((each: { mV: number; pH: number }) => [each.mV, each.pH]),
            temp_C,
          ),
        ),
      )
      expect(curve.facts['slopeMillivoltPerPh']).toBeCloseTo(wanted.slope_mV_per_pH, 6)
      expect(curve.facts['slopePercent']).toBeCloseTo(wanted.percent_of_nernst, 4)
      expect(curve.facts['offsetMillivolt']).toBeCloseTo(wanted.mV_at_pH7, 6)
      expect(curve.facts['zeroPointPh']).toBeCloseTo(wanted.zero_point_pH, 6)
      for (const [k, millivolt] of sample_mV.entries()) {
        expect(readAt(curve, millivolt, { temperatureCelsius: temp_C }).value).toBeCloseTo(sample_pH[k], 6)
      }
    }
  })

  test('technical 7 and 4 at 15 °C: −56.02 mV per pH, 98.0 %, +8.2 mV, pass; +84.0 mV is pH 5.65', () => {
    const curve = fitted(
      electrode(
        technical(
          [
            [6, '7'],
            [176.3, '4'],
          ],
          15,
        ),
      ),
    )
    expect(curve.facts['slopeMillivoltPerPh']).toBeCloseTo(-56.02, 2)
    expect(curve.facts['slopePercent']).toBeCloseTo(98.0, 1)
    expect(curve.facts['offsetMillivolt']).toBeCloseTo(8.2, 1)
    expect(curve.verdict).toBe('pass')
    const value = readAt(curve, 84, { temperatureCelsius: 15 })
    expect(value.value).toBeCloseTo(5.65, 2)
    expect(value.remarks).toEqual([])
  })

  test('the same typed as if at 25 °C gives 5.63: the temperature matters', () => {
    const curve = fitted(
      electrode(
        typed(
          [
            [6, 7],
            [176.3, 4],
          ],
          15,
        ),
      ),
    )
    expect(readAt(curve, 84, { temperatureCelsius: 15 }).value).toBeCloseTo(5.63, 2)
  })

  test('cold soil after a warm calibration: compensated 5.05, without temperature 5.17 and said so', () => {
    const curve = fitted(
      electrode(
        typed(
          [
            [-4, 7],
            [165.5, 4.01],
          ],
          25,
        ),
      ),
    )
    expect(curve.facts['slopePercent']).toBeCloseTo(95.8, 1)
    expect(readAt(curve, 100, { temperatureCelsius: 8 }).value).toBeCloseTo(5.05, 2)
    const plain = readAt(curve, 100)
    expect(plain.value).toBeCloseTo(5.17, 2)
    expect(plain.remarks).toEqual(['not-temperature-compensated'])
  })

  test('a signal in volts is the same as in millivolts; an unlike unit is refused', () => {
    const curve = fitted(
      electrode(
        technical(
          [
            [6, '7'],
            [176.3, '4'],
          ],
          15,
        ),
      ),
    )
    const warm = { temperatureCelsius: 15 }
    expect(readAt(curve, 0.084, { ...warm, signalUnit: 'V' }).value).toBeCloseTo(
      readAt(curve, 84, warm).value,
      12,
    )
    expect(expectRefusal(curve.valueAt(84, { signalUnit: 'lx' }), 'E_SIGNAL_UNIT').message).toContain('mV')
    expect(curve.budget(84, { signalUnit: 'lx' })).toEqual([])
  })

  test('a bottle value typed by hand wins over the table', () => {
    const [neutral, acid] = technical(
      [
        [6, '7'],
        [176.3, '4'],
      ],
      15,
    )
    const curve = fitted(electrode([{ ...neutral!, ph: 7.1 }, acid!]))
    expect(curve.facts['slopeMillivoltPerPh']).toBeCloseTo(170.3 / (4 - 7.1), 9)
  })

  test('amplifier gain and bias are undone', () => {
    const plain = fitted(
      electrode(
        technical(
          [
            [6, '7'],
            [176.3, '4'],
          ],
          15,
        ),
      ),
    )
    const amplifier = { gain: -3, biasMillivolt: 1500 }
    const amplified = fitted(
      electrode(
        technical(
          [
            [1500 - 18, '7'],
            [1500 - 528.9, '4'],
          ],
          15,
        ),
        { amplifier },
      ),
    )
    expect(amplified.facts['slopePercent']).toBeCloseTo(plain.facts['slopePercent'] as number, 9)
    expect(amplified.facts['offsetMillivolt']).toBeCloseTo(plain.facts['offsetMillivolt'] as number, 9)
    expect(readAt(amplified, 1500 - 252).value).toBeCloseTo(readAt(plain, 84).value, 9)
    expect(readAt(amplified, 1500 - 252).standardUncertainty).toBeCloseTo(
      readAt(plain, 84).standardUncertainty!,
      9,
    )
    expect(amplified.signalAt(readAt(plain, 84).value)).toBeCloseTo(1500 - 252, 6)
  })

  test('with an unknown gain the slope in percent cannot be known, and pH can', () => {
    const curve = fitted(
      electrode(
        typed(
          [
            [1482, 7.04],
            [971.1, 4],
          ],
          15,
        ),
        { signalIs: 'amplified-unknown-gain' },
      ),
    )
    expect(curve.facts['slopePercent']).toBeNull()
    expect(curve.verdict).toBe('warn')
    expect(curve.advice.map((each) => each.code)).toEqual(['gain-unknown'])
    expect(readAt(curve, 1248, { temperatureCelsius: 15 }).value).toBeCloseTo(5.65, 2)
  })
})

describe('a pH electrode against three buffers and more', () => {
  test('three on one line leave no residual; a least-squares line stands for all', () => {
    const ideal = (ph: number) => 2 - 0.97 * nernstSlope(20) * (ph - 7)
    const curve = fitted(
      electrode(
        typed(
          [4, 7, 10].map((ph) => [ideal(ph), ph]),
          20,
        ),
      ),
    )
    expect(curve.facts['slopePercent']).toBeCloseTo(97, 9)
    expect(curve.facts['largestResidualPh']).toBeCloseTo(0, 9)
    expect(curve.residuals).toHaveLength(3)
  })

  test('buffers at unlike temperatures still share one slope in percent', () => {
    const at = (ph: number, celsius: number): PhPoint => ({
      millivolt: -3 - 0.98 * nernstSlope(celsius) * (ph - 7),
      ph,
      temperatureCelsius: celsius,
    })
    const curve = fitted(electrode([at(4, 12), at(7, 25)]))
    expect(curve.facts['slopePercent']).toBeCloseTo(98, 9)
    expect(curve.facts['offsetMillivolt']).toBeCloseTo(-3, 9)
    expect(curve.advice.map((each) => each.code)).toContain('temperatures-differ')
  })

  test('a check buffer is judged and never fitted', () => {
    const two = typed(
      [
        [0, 7],
        [171, 4],
      ],
      25,
    )
    const check: PhPoint = { millivolt: -165, ph: 10.01, temperatureCelsius: 25, role: 'check' }
    const without = fitted(electrode(two))
    const with_ = fitted(electrode([...two, check]))
    expect(with_.facts['slopePercent']).toBe(without.facts['slopePercent'])
    expect(with_.facts['largestCheckErrorPh']).toBeCloseTo(0.115, 2)
    expect(with_.verdict).toBe('fail')
    expect(with_.advice.map((each) => each.code)).toEqual(['check-standard-off'])
  })

  test('an alkaline buffer that took up carbon dioxide is recognised: 4–7 fine, 7–10 low', () => {
    const perPh = 0.98 * nernstSlope(25)
    expect(
      codes(
        electrode(
          typed(
            [
              [3 * perPh, 4],
              [0, 7],
              [-3.01 * perPh * 0.92, 10.01],
            ],
            25,
          ),
        ),
      ),
    ).toContain('alkaline-buffer-stale')
    expect(
      codes(
        electrode(
          typed(
            [
              [3 * perPh, 4],
              [0, 7],
              [-3.01 * perPh, 10.01],
            ],
            25,
          ),
        ),
      ),
    ).toEqual([])
  })

  test('a 6.86 bottle entered as 7.00 is suspected', () => {
    const perPh = 0.99 * nernstSlope(25)
    const points = technical(
      [
        [0.135 * perPh, '7'],
        [3 * perPh, '4'],
      ],
      25,
    )
    expect(codes(electrode(points))).toContain('buffer-set-doubtful')
  })

  test('a tired electrode is not excused as a mistaken bottle', () => {
    const perPh = 0.94 * nernstSlope(25)
    const tired = technical(
      [
        [0, '7'],
        [3 * perPh, '4'],
      ],
      25,
    )
    expect(codes(electrode(tired))).toEqual(['slope-low'])
  })
})

describe('bad electrodes and mistakes at 10 °C', () => {
  test('a dry bulb: 73.9 %, −38.5 mV, fails twice with advice to clean and soak', () => {
    const curve = fitted(
      electrode(
        technical(
          [
            [-41, '7'],
            [86, '4'],
          ],
          10,
        ),
      ),
    )
    expect(curve.facts['slopePercent']).toBeCloseTo(73.9, 1)
    expect(curve.facts['offsetMillivolt']).toBeCloseTo(-38.5, 1)
    expect(curve.verdict).toBe('fail')
    expect(curve.advice.map((each) => each.code)).toEqual(['slope-low', 'offset-large'])
    expect(curve.advice[0]!.text).toMatch(/soak/)
  })

  test('swapped buffers: the sign is wrong, fail, and the advice says so', () => {
    const curve = fitted(
      electrode(
        technical(
          [
            [162, '7'],
            [-4, '4'],
          ],
          10,
        ),
      ),
    )
    expect(curve.facts['slopeMillivoltPerPh']).toBeCloseTo(54.2, 1)
    expect(curve.verdict).toBe('fail')
    expect(curve.advice.map((each) => each.code)).toEqual(['buffers-swapped'])
  })

  test('the same answer in both: cracked or unplugged, even when exactly the same', () => {
    const near = fitted(
      electrode(
        technical(
          [
            [3, '7'],
            [8, '4'],
          ],
          10,
        ),
      ),
    )
    expect(near.facts['slopePercent']).toBeCloseTo(2.9, 1)
    expect(near.verdict).toBe('fail')
    expect(near.advice.map((each) => each.code)).toEqual(['same-answer'])
    const dead = fitted(
      electrode(
        technical(
          [
            [5, '7'],
            [5, '4'],
          ],
          10,
        ),
      ),
    )
    expect(dead.verdict).toBe('fail')
    expect(dead.advice.map((each) => each.code)).toEqual(['same-answer'])
    expectRefusal(dead.valueAt(5), 'E_SLOPE_ZERO')
    expect(dead.signalAt(7)).toBeNull()
    expect(dead.budget(5)).toEqual([])
  })

  test('one buffer twice is refused', () => {
    expectRefusal(
      fitCalibration(
        electrode(
          technical(
            [
              [6, '7'],
              [7, '7'],
            ],
            15,
          ),
        ),
      ),
      'E_SAME_REFERENCE',
    )
  })

  test('one point, no buffer, a table left behind, water that boils: refused', () => {
    expectRefusal(fitCalibration(electrode(technical([[6, '7']], 15))), 'E_POINTS_FEW')
    expectRefusal(
      fitCalibration(
        electrode(
          technical(
            [
              [6, '7'],
              [170, '4'],
            ],
            55,
          ),
        ),
      ),
      'E_TEMPERATURE_RANGE',
    )
    expectRefusal(
      fitCalibration(
        electrode(
          typed(
            [
              [6, 7],
              [170, 4],
            ],
            101,
          ),
        ),
      ),
      'E_TEMPERATURE_RANGE',
    )
    expectRefusal(
      fitCalibration(
        electrode(
          typed(
            [
              [6, 7],
              [170, 14.5],
            ],
            20,
          ),
        ),
      ),
      'E_SETTING',
    )
    expectRefusal(fitCalibration(electrode([{ millivolt: 1, temperatureCelsius: 20 }])), 'E_RECIPE')
    expectRefusal(
      fitCalibration(
        electrode(
          typed(
            [
              [6, 7],
              [170, 4],
            ],
            20,
          ),
          { amplifier: { gain: 0, biasMillivolt: 0 } },
        ),
      ),
      'E_SETTING',
    )
  })

  test('a number that is none is refused by its path', () => {
    const refusal = expectRefusal(
      fitCalibration(
        electrode(
          typed(
            [
              [6, 7],
              [Number.NaN, 4],
            ],
            20,
          ),
        ),
      ),
      'E_NOT_FINITE',
    )
    expect(refusal.message).toContain('points[1].millivolt')
    const curve = fitted(
      electrode(
        typed(
          [
            [6, 7],
            [176, 4],
          ],
          20,
        ),
      ),
    )
    for (const signal of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
      expectRefusal(curve.valueAt(signal), 'E_NOT_FINITE')
    }
    expectRefusal(curve.valueAt(6, { temperatureCelsius: 200 }), 'E_TEMPERATURE_RANGE')
    expectRefusal(curve.valueAt(6, { temperatureCelsius: Number.NaN }), 'E_TEMPERATURE_RANGE')
  })
})

describe('limits of the verdict', () => {
  const withSlope = (percent: number, offset = 0) =>
    electrode(
      typed(
        [4, 7].map((ph) => [offset - (percent / 100) * nernstSlope(25) * (ph - 7), ph]),
        25,
      ),
    )

  test.each([
    [89.9, 'fail'],
    [90.0001, 'warn'],
    [94.9, 'warn'],
    [95.0001, 'pass'],
    [101.9999, 'pass'],
    [102.1, 'warn'],
    [104.9999, 'warn'],
    [105.1, 'fail'],
    [40, 'fail'],
  ])('a slope of %s %% is %s', (percent, verdict) => {
    expect(fitted(withSlope(percent)).verdict).toBe(verdict)
  })

  test.each([
    [14.9, 'pass'],
    [15, 'pass'],
    [15.1, 'warn'],
    [-30, 'warn'],
    [30.1, 'fail'],
  ])('an offset of %s mV is %s', (offset, verdict) => {
    expect(fitted(withSlope(99, offset)).verdict).toBe(verdict)
  })

  test.each([
    [60, 'pass'],
    [61, 'warn'],
    [180, 'warn'],
    [181, 'fail'],
  ])('%s s to become steady is %s', (secondsToStable, verdict) => {
    const recipe = withSlope(99)
    recipe.points[0]!.secondsToStable = secondsToStable
    expect(fitted(recipe).verdict).toBe(verdict)
  })

  test('a forced reading, close buffers and unbracketed soil warn', () => {
    const forced = withSlope(99)
    forced.points[0]!.forced = true
    expect(fitted(forced).advice.map((each) => each.code)).toEqual(['not-steady'])
    const close = electrode(
      typed(
        [7, 6].map((ph) => [-58.5 * (ph - 7), ph]),
        25,
      ),
    )
    expect(fitted(close).advice.map((each) => each.code)).toEqual(['buffers-close'])
    expect(fitted({ ...withSlope(99), soilPh: { low: 3.6, high: 6 } }).verdict).toBe('warn')
    expect(fitted({ ...withSlope(99), soilPh: { low: 3.4, high: 6 } }).verdict).toBe('fail')
  })

  test('limits may be edited', () => {
    expect(fitted({ ...withSlope(93), criteria: { slopePassLowPercent: 92 } }).verdict).toBe('pass')
  })

  test('a value outside the buffers is given and remarked, not clipped', () => {
    const curve = fitted(withSlope(99))
    const at = (ph: number) => readAt(curve, curve.signalAt(ph)!, { temperatureCelsius: 25 })
    expect(at(3.9).remarks).toEqual(['extrapolated'])
    expect(at(4).remarks).toEqual([])
    expect(at(7).remarks).toEqual([])
    expect(at(7.1).remarks).toEqual(['extrapolated'])
    expect(at(15).remarks).toEqual(['extrapolated', 'impossible'])
    expect(at(15).value).toBeCloseTo(15, 9)
  })
})

test('the uncertainty of the sample’s temperature enters away from pH 7 only', () => {
  const curve = fitted(
    electrode(
      typed(
        [
          [0, 7],
          [171, 4],
        ],
        25,
      ),
    ),
  )
  const conditions = { temperatureCelsius: 20, temperatureStandardUncertaintyCelsius: 2 }
  const term = (signal: number) =>
    curve.budget(signal, conditions).find((line) => line.name === 'temperature')
  expect(term(0)).toBeUndefined()
  // d(pH)/dT = (pH − 7)/T: about 2 pH · 2 K / 293 K
  expect(term(curve.signalAt(5, conditions)!)!.standardUncertainty).toBeCloseTo((2 * 2) / 293.15, 6)
})

test('stated uncertainties that the points contradict are not believed', () => {
  const perPh = nernstSlope(25)
  const off = typed(
    [
      [3 * perPh, 4],
      [0.2 * perPh, 7],
      [-3 * perPh, 10],
    ],
    25,
  )
  const on = typed(
    [
      [3 * perPh, 4],
      [0, 7],
      [-3 * perPh, 10],
    ],
    25,
  )
  const wide = readAt(fitted(electrode(off)), 50).standardUncertainty!
  expect(wide).toBeGreaterThan(3 * readAt(fitted(electrode(on)), 50).standardUncertainty!)
})

test('any good electrode is found again, and value and signal undo each other at any temperature', () => {
  const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })
  fc.assert(
    fc.property(
      number(60, 105),
      number(-60, 60),
      number(0, 50),
      number(0, 50),
      number(2, 10),
      (percent, offset, t, sample, ph) => {
        const points = [4, 7, 9.5].map(
          (each): PhPoint => ({
            millivolt: offset - (percent / 100) * nernstSlope(t) * (each - 7),
            ph: each,
            temperatureCelsius: t,
          }),
        )
        const curve = fitted(electrode(points))
        expect(curve.facts['slopePercent']).toBeCloseTo(percent, 6)
        expect(curve.facts['offsetMillivolt']).toBeCloseTo(offset, 6)
        const signal = curve.signalAt(ph, { temperatureCelsius: sample })!
        expect(readAt(curve, signal, { temperatureCelsius: sample }).value).toBeCloseTo(ph, 8)
        for (const point of points) {
          expect(readAt(curve, point.millivolt, { temperatureCelsius: t }).value).toBeCloseTo(point.ph!, 8)
        }
      },
    ),
    { seed: 7, numRuns: 200 },
  )
})
