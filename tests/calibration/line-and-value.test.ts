import { readdirSync, readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { fitCalibration, isRefusal, REFUSALS, type Recipe } from '../../calibration/index.ts'
import { expectRefusal, fitted, readAt } from './expect-fitted.ts'

describe('any probe with a straight answer', () => {
  test('two points are met exactly; the uncertainty is unknown and said so', () => {
    const curve = fitted({
      kind: 'line',
      unit: 'S/m',
      signalUnit: 'mV',
      points: [
        { signal: 100, reference: 1 },
        { signal: 500, reference: 3 },
      ],
    })
    expect(curve.unit).toBe('S/m')
    expect(curve.signalUnits).toEqual(['mV', 'V'])
    expect(readAt(curve, 100).value).toBeCloseTo(1, 12)
    expect(readAt(curve, 0.5, { signalUnit: 'V' }).value).toBeCloseTo(3, 12)
    expect(readAt(curve, 100).standardUncertainty).toBeNull()
    expect([99, 100, 500, 501].map((signal) => readAt(curve, signal).remarks.length)).toEqual([1, 0, 0, 1])
    expect(curve.advice.map((each) => each.code)).toEqual(['uncertainty-unknown'])
  })

  test('a third point shows the scatter, on one degree of freedom', () => {
    const points = [0, 1, 2].map((reference, k) => ({ reference, signal: 10 * reference + [0, 0.3, 0][k]! }))
    const value = readAt(fitted({ kind: 'line', unit: 'm', points }), 10)
    expect(value.degreesOfFreedom).toBe(1)
    expect(value.standardUncertainty).toBeGreaterThan(0)
  })

  test('slope and intercept from a sheet', () => {
    const recipe = { kind: 'line', unit: 'm', slope: 2, intercept: -1 } as const
    expect(readAt(fitted(recipe), 3)).toMatchObject({ value: 5, standardUncertainty: null, remarks: [] })
    const stated = fitted({ ...recipe, standardUncertainty: 0.3, driftStandardUncertainty: 0.4 })
    expect(readAt(stated, 3).standardUncertainty).toBeCloseTo(0.5, 12)
    expect(stated.budget(3).map((line) => line.name)).toEqual(['reference', 'drift'])
    expect(stated.signalAt(5)).toBe(3)
    expectRefusal(fitCalibration({ kind: 'line', unit: 'm', slope: 2 }), 'E_RECIPE')
    expectRefusal(fitCalibration({ kind: 'line', unit: 'm', slope: 0, intercept: 1 }), 'E_SLOPE_ZERO')
  })

  test('a flat signal and one reference twice are refused', () => {
    const flat = [1, 2].map((reference) => ({ reference, signal: 7 }))
    expectRefusal(fitCalibration({ kind: 'line', unit: 'm', points: flat }), 'E_SLOPE_ZERO')
    const same = [1, 2].map((signal) => ({ reference: 7, signal }))
    expectRefusal(fitCalibration({ kind: 'line', unit: 'm', points: same }), 'E_SAME_REFERENCE')
  })

  test('value and signal undo each other', () => {
    const number = fc.double({ min: -100, max: 100, noNaN: true })
    fc.assert(
      fc.property(number, number, fc.double({ min: 0.1, max: 50, noNaN: true }), number, (s1, r1, ds, at) => {
        const points = [
          { signal: s1, reference: r1 },
          { signal: s1 + ds, reference: r1 - 3 },
        ]
        const curve = fitted({ kind: 'line', unit: 'm', points })
        expect(curve.signalAt(readAt(curve, at).value)).toBeCloseTo(at, 6)
      }),
      { seed: 9 },
    )
  })
})

describe('a board that sends the value itself', () => {
  test('the value passes through with its offset; uncertainty unknown unless stated', () => {
    expect(readAt(fitted({ kind: 'already-a-value', unit: 'lx', offset: 2 }), 40)).toEqual({
      value: 42,
      standardUncertainty: null,
      degreesOfFreedom: Number.POSITIVE_INFINITY,
      remarks: [],
    })
    const stated = fitted({
      kind: 'already-a-value',
      unit: 'Cel',
      standardUncertainty: 0.2,
      signalResolution: 0.1,
    })
    expect(readAt(stated, 12).standardUncertainty).toBeCloseTo(Math.hypot(0.2, 0.1 / Math.sqrt(12)), 12)
    expect(stated.budget(12).map((line) => line.name)).toEqual(['reference', 'resolution'])
    expect(readAt(stated, -127).remarks).toEqual(['fault-code'])
  })

  test('km/h become m/s, SenML % is the plain ratio', () => {
    const wind = fitted({ kind: 'already-a-value', unit: 'm/s' })
    expect(readAt(wind, 36, { signalUnit: 'km/h' }).value).toBeCloseTo(10, 9)
    const ratio = fitted({ kind: 'already-a-value', unit: '/' })
    expect(readAt(ratio, 0.3, { signalUnit: '%' }).value).toBe(0.3)
  })
})

describe('every kind', () => {
  const samples = [1000, 2000, 3000].map((signal, k) => ({
    signal,
    wetGram: 140 - 8 * k,
    dryGram: 115,
    tinGram: 25,
    ringCubicCentimetre: 80,
  }))
  const recipes: Recipe[] = [
    {
      kind: 'ph-electrode',
      points: [4, 7].map((ph) => ({ ph, millivolt: -57 * (ph - 7), temperatureCelsius: 20 })),
    },
    { kind: 'wetness-span', drySignal: 800, wetSignal: 300 },
    { kind: 'water-content-fit', samples, soil: 'meadow' },
    { kind: 'permittivity' },
    { kind: 'light-counts', sensor: 'bh1750' },
    { kind: 'light-power', points: [10, 100, 1000].map((lux) => ({ lux, signal: lux ** -0.7 })) },
    { kind: 'light-span', points: [0, 1000].map((lux) => ({ lux, signal: lux / 10 })) },
    { kind: 'digital-temperature' },
    { kind: 'thermistor', beta: { ohmAt25: 10_000, betaKelvin: 3950 } },
    { kind: 'platinum' },
    { kind: 'cup-anemometer', offsetMetresPerSecond: 0.3, slopeMetresPerSecondPerHertz: 0.66 },
    { kind: 'line', unit: 'm', slope: 1, intercept: 0 },
    { kind: 'already-a-value', unit: 'lx' },
  ]

  test.each(recipes)('$kind survives a trip through plain JSON and refuses what is no number', (recipe) => {
    const curve = fitted(JSON.parse(JSON.stringify(recipe)))
    expect(curve.kind).toBe(recipe.kind)
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
      expectRefusal(curve.valueAt(bad), 'E_NOT_FINITE')
      expect(curve.budget(bad)).toEqual([])
      expect(curve.signalAt(bad)).toBeNull()
    }
  })

  test.each(recipes)('$kind gives finite values or refusals for any signal', (recipe) => {
    const curve = fitted(recipe)
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (signal) => {
        const value = curve.valueAt(signal)
        if (isRefusal(value)) return
        expect(Number.isFinite(value.value)).toBe(true)
        if (value.standardUncertainty !== null) expect(value.standardUncertainty).toBeGreaterThanOrEqual(0)
        expect(value.degreesOfFreedom).toBeGreaterThan(0)
      }),
      { seed: 1, numRuns: 300 },
    )
  })

  test.each(recipes)('$kind: the budget adds up to the standard uncertainty', (recipe) => {
    const curve = fitted({ ...recipe, driftStandardUncertainty: 0.01 })
    const signal = curve.signalRange === null ? 100 : (curve.signalRange.low + curve.signalRange.high) / 2
    const value = readAt(curve, signal, { infraredCounts: 10 })
    if (value.standardUncertainty === null) return
    const squares = curve
      .budget(signal, { infraredCounts: 10 })
      .reduce((sum, line) => sum + line.standardUncertainty ** 2, 0)
    expect(Math.sqrt(squares)).toBeCloseTo(value.standardUncertainty, 9)
  })

  test('an unknown kind is named', () => {
    const refusal = expectRefusal(fitCalibration({ kind: 'crystal-ball' } as never), 'E_RECIPE')
    expect(refusal.message).toContain('crystal-ball')
    expectRefusal(fitCalibration(null as never), 'E_RECIPE')
    expectRefusal(fitCalibration({ kind: 'light-counts', sensor: 'candle' } as never), 'E_SETTING')
  })

  test.each([
    [{ kind: 'ph-electrode' }, 'points'],
    [{ kind: 'ph-electrode', points: [{ millivolt: 1 }] }, 'temperatureCelsius'],
    [{ kind: 'ph-electrode', points: [3] }, 'points[0]'],
    [{ kind: 'wetness-span', drySignal: 1 }, 'wetSignal'],
    [{ kind: 'water-content-fit', soil: 'x', samples: [{ signal: '3' }] }, 'signal'],
    [{ kind: 'light-counts' }, 'sensor'],
    [{ kind: 'light-span', points: 'none' }, 'points'],
    [{ kind: 'line', unit: '' }, 'unit'],
    [{ kind: 'cup-anemometer', pairs: [{ hertz: 1 }] }, 'metresPerSecond'],
    [{ kind: 'thermistor', points: [{ ohm: null, celsius: 1 }] }, 'ohm'],
    [{ kind: 'already-a-value' }, 'unit'],
  ])('%j is refused by the field it misses', (recipe, field) => {
    expect(expectRefusal(fitCalibration(recipe as never), 'E_RECIPE').message).toContain(field)
  })
})

describe('the catalogue of refusals', () => {
  test('every code begins with E_, says what it means, and is raised by some test', () => {
    const folders = ['./', '../compute/'].map((folder) => new URL(folder, import.meta.url))
    const tests = folders
      .flatMap((folder) => readdirSync(folder).map((file) => readFileSync(new URL(file, folder), 'utf8')))
      .join('\n')
    for (const [code, meaning] of Object.entries(REFUSALS)) {
      expect(code).toMatch(/^E_[A-Z_]+$/)
      expect(meaning.length).toBeGreaterThan(20)
      expect(tests, code).toContain(`'${code}'`)
    }
  })
})
