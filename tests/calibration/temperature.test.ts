import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  betaCelsius,
  betaOhm,
  celsiusFromWord,
  fitCalibration,
  fitIcePoint,
  fitSteinhartHart,
  isRefusal,
  platinumCelsius,
  platinumOhm,
  platinumTolerance,
  type SteinhartHart,
  steinhartHartCelsius,
  steinhartHartOhm,
} from '../../calibration/index.ts'
import { expectRefusal, fitted, readAt } from './expect-fitted.ts'
import { referenceJson, referenceRows } from './reference-files.ts'

describe('the word of a digital thermometer', () => {
  test('every row of the data sheet, as text, unsigned and signed number', () => {
    for (const row of referenceRows('temp-ds18b20.csv')) {
      const wanted = Number(row['temp_C'])
      expect(celsiusFromWord(row['hex_msb_lsb']!)).toBe(wanted)
      expect(celsiusFromWord(`0x${row['hex_msb_lsb']}`)).toBe(wanted)
      expect(celsiusFromWord(Number(row['signed_raw']))).toBe(wanted)
      expect(celsiusFromWord(Number.parseInt(row['hex_msb_lsb']!, 16))).toBe(wanted)
    }
  })

  test('what is no 16-bit word is refused', () => {
    for (const bad of ['', '0x', 'XYZ', '12345', 65536, -32769, 0.5, Number.NaN]) {
      expectRefusal(celsiusFromWord(bad), 'E_SETTING')
    }
  })
})

describe('a digital thermometer', () => {
  test('ice readings 0.62 0.60 0.63 0.61 give −0.615 °C; 20.70 at 20.0 leaves 0.085', () => {
    const curve = fitted({
      kind: 'digital-temperature',
      icePoint: [0.62, 0.6, 0.63, 0.61],
      secondPoint: { reading: 20.7, reference: 20 },
    })
    expect(curve.facts['offsetCelsius']).toBeCloseTo(-0.615, 9)
    expect(curve.facts['secondPointResidualCelsius']).toBeCloseTo(0.085, 9)
    const soil = [12.1, 12.1, 12.2, 12.2, 12.3, 12.3].map((signal) => readAt(curve, signal).value)
    expect(soil.reduce((sum, each) => sum + each, 0) / 6).toBeCloseTo(11.585, 9)
  })

  test('−127 is a fault code and keeps its number; 85.0 alone is a matter for the neighbours', () => {
    const curve = fitted({ kind: 'digital-temperature', offsetCelsius: 0.3 })
    expect(readAt(curve, -127)).toMatchObject({
      value: -127,
      standardUncertainty: null,
      remarks: ['fault-code'],
    })
    expect(readAt(curve, 85).remarks).toEqual([])
  })

  test('sixteenths, negative too; words that are none are refused', () => {
    const curve = fitted({ kind: 'digital-temperature', signalIs: 'sixteenths' })
    expect(curve.signalUnits).toEqual(['count'])
    expect(readAt(curve, 0xff5e).value).toBe(-10.125)
    expect(readAt(curve, -162).value).toBe(-10.125)
    expectRefusal(curve.valueAt(0.5), 'E_SIGNAL_RANGE')
    expectRefusal(curve.valueAt(70_000), 'E_SIGNAL_RANGE')
    expect(curve.signalAt(25.0625)).toBe(401)
  })

  test('the measuring range: below, at, at, above', () => {
    const curve = fitted({ kind: 'digital-temperature' })
    expect([-55.1, -55, 125, 125.1].map((signal) => readAt(curve, signal).remarks.length)).toEqual([
      1, 0, 0, 1,
    ])
  })

  test('an offset of 0.5 is corrected, above it warns, above 1.0 the thermometer is replaced', () => {
    const verdict = (offsetCelsius: number) => fitted({ kind: 'digital-temperature', offsetCelsius }).verdict
    expect([0.5, 0.51, -1, -1.01].map(verdict)).toEqual(['pass', 'warn', 'warn', 'fail'])
    const second = (reading: number) =>
      fitted({ kind: 'digital-temperature', secondPoint: { reading, reference: 20 } }).verdict
    expect([20.29, 20.31].map(second)).toEqual(['pass', 'warn'])
  })

  test('as bought ±0.5 °C; after ice the bath, the scatter and the step', () => {
    const bought = readAt(fitted({ kind: 'digital-temperature' }), 12)
    expect(bought.standardUncertainty).toBeCloseTo(Math.hypot(0.5 / Math.sqrt(3), 0.0625 / Math.sqrt(12)), 9)
    const iced = fitted({ kind: 'digital-temperature', icePoint: [0.1, 0.2, 0.1, 0.2, 0.1] })
    expect(iced.budget(12).map((line) => line.name)).toEqual(['reference', 'resolution', 'repeatability'])
    expect(readAt(iced, 12).degreesOfFreedom).toBeGreaterThan(4)
  })

  test('what is no ice bath is refused', () => {
    expectRefusal(fitIcePoint([]), 'E_POINTS_FEW')
    expectRefusal(fitIcePoint([0.1, -127]), 'E_SIGNAL_RANGE')
    expectRefusal(fitIcePoint([0.1, 85]), 'E_SIGNAL_RANGE')
    expectRefusal(fitCalibration({ kind: 'digital-temperature', icePoint: [20] }), 'E_SIGNAL_RANGE')
    expect(fitIcePoint([0])).toEqual({ offsetCelsius: 0, scatterCelsius: 0 })
  })
})

describe('platinum', () => {
  test('every row of the standard’s table, both ways, with its tolerance', () => {
    // IEC 60751; ohm to four decimals, class tolerances to three
    for (const row of referenceRows('temp-pt100.csv')) {
      const celsius = Number(row['temp_C'])
      expect(Math.abs(platinumOhm(celsius) - Number(row['ohm_4dp']))).toBeLessThanOrEqual(0.00005 + 1e-9)
      expect(Math.abs(platinumOhm(celsius) - Number(row['ohm_table_2dp']))).toBeLessThanOrEqual(0.005 + 1e-9)
      expect(platinumCelsius(Number(row['ohm_4dp']))).toBeCloseTo(celsius, 3)
      expect(platinumTolerance('A', celsius)).toBeCloseTo(Number(row['class_A_tol_C']), 3)
      expect(platinumTolerance('B', celsius)).toBeCloseTo(Number(row['class_B_tol_C']), 3)
    }
  })

  test('resistance and temperature undo each other over the whole range', () => {
    fc.assert(
      fc.property(fc.double({ min: -199.9, max: 849.9, noNaN: true }), (celsius) => {
        expect(platinumCelsius(platinumOhm(celsius, 1000), 1000)).toBeCloseTo(celsius, 8)
      }),
      { seed: 5, numRuns: 500 },
    )
    expect(platinumCelsius(100)).toBe(0)
  })

  test('the range: below, at, at, above; uncertainty only with a stated class', () => {
    const curve = fitted({ kind: 'platinum', toleranceClass: 'B' })
    const at = (celsius: number) => isRefusal(curve.valueAt(platinumOhm(celsius)))
    expect([-200.1, -200, 850, 850.1].map(at)).toEqual([true, false, false, true])
    expect(readAt(curve, 100).standardUncertainty).toBeCloseTo(0.3 / Math.sqrt(3), 9)
    expect(readAt(fitted({ kind: 'platinum' }), 100).standardUncertainty).toBeNull()
    expect(curve.signalAt(100)).toBeCloseTo(138.5055, 9)
    expect(curve.budget(0)).toEqual([])
    expectRefusal(fitCalibration({ kind: 'platinum', ohmAtZero: 0 }), 'E_SETTING')
  })
})

describe('a thermistor', () => {
  const manual = referenceJson('temp-steinhart-hart.json')
  const points = manual.fit_points_C.map((celsius: number) => ({
    celsius,
    ohm: manual.pairs.find((pair: { temp_C: number }) => pair.temp_C === celsius).ohm,
  }))

  test('three points give the published pairs between them within 0.01 °C', () => {
    // instrument manual appendix; fit computed
    const fit = fitSteinhartHart(points) as SteinhartHart
    expect(fit.a / manual.A).toBeCloseTo(1, 9)
    expect(fit.b / manual.B).toBeCloseTo(1, 9)
    expect(fit.c / manual.C).toBeCloseTo(1, 8)
    for (const { ohm, temp_C } of manual.check) expect(steinhartHartCelsius(ohm, fit)).toBeCloseTo(temp_C, 3)
    for (const { ohm, temp_C } of manual.pairs)
      expect(Math.abs(steinhartHartCelsius(ohm, fit) - temp_C)).toBeLessThan(0.01)
  })

  test('a maker’s table of a 10 kΩ thermistor is met within 0.01 °C by a fit through three of its rows', () => {
    const rows = referenceRows('temp-ntc-10k3.csv').map((row) => ({
      celsius: Number(row['temp_C']),
      ohm: Number(row['ohm']),
    }))
    const fit = fitSteinhartHart([rows[0]!, rows[3]!, rows.at(-1)!]) as SteinhartHart
    for (const row of rows)
      expect(Math.abs(steinhartHartCelsius(row.ohm, fit) - row.celsius)).toBeLessThan(0.01)
  })

  test('the beta equation is exact at 25 °C and as far off elsewhere as computed from the maker’s table', () => {
    const beta = { ohmAt25: 10_000, betaKelvin: 3435 }
    for (const row of referenceRows('temp-ntc-b3435.csv')) {
      expect(betaCelsius(Number(row['ohm']), beta)).toBeCloseTo(Number(row['temp_C_by_beta_3435_eq']), 2)
    }
    expect(betaCelsius(betaOhm(-12.3, beta), beta)).toBeCloseTo(-12.3, 9)
  })

  test('points are met exactly and resistance and temperature undo each other', () => {
    fc.assert(
      fc.property(fc.double({ min: -40, max: 90, noNaN: true }), (celsius) => {
        const fit = fitSteinhartHart(points) as SteinhartHart
        expect(steinhartHartCelsius(steinhartHartOhm(celsius, fit), fit)).toBeCloseTo(celsius, 8)
        for (const point of points) expect(steinhartHartCelsius(point.ohm, fit)).toBeCloseTo(point.celsius, 9)
      }),
      { seed: 11 },
    )
  })

  test('a divider: counts to ohm; both rails are remarked', () => {
    const divider = { seriesOhm: 10_000, fullScaleCounts: 1023 }
    const curve = fitted({ kind: 'thermistor', points, divider, referenceStandardUncertaintyCelsius: 0.1 })
    const half = readAt(curve, 511.5)
    expect(half.value).toBeCloseTo(readAt(fitted({ kind: 'thermistor', points }), 10_000).value, 9)
    expect(curve.signalAt(half.value)).toBeCloseTo(511.5, 6)
    expect(readAt(curve, 0).remarks).toEqual(['sensor-shorted'])
    expect(readAt(curve, 1023).remarks).toEqual(['sensor-open'])
    expect(readAt(curve, 0).value).toBeGreaterThan(100)
    expect(readAt(curve, 1023).value).toBeLessThan(-40)
    expect(curve.budget(511).map((line) => line.name)).toEqual(['reference', 'resolution'])
  })

  test('at a reference point the uncertainty is that of the reference', () => {
    const curve = fitted({ kind: 'thermistor', points, referenceStandardUncertaintyCelsius: 0.1 })
    expect(readAt(curve, points[1].ohm).standardUncertainty).toBeCloseTo(0.1, 9)
    expect(readAt(fitted({ kind: 'thermistor', points }), 9814).standardUncertainty).toBeNull()
  })

  test('swapped, repeated, missing and impossible points are refused', () => {
    const [a, b, c] = points
    expectRefusal(fitSteinhartHart([a, b]), 'E_POINTS_FEW')
    expectRefusal(fitSteinhartHart([a, b, { ...c, celsius: b.celsius }]), 'E_SAME_REFERENCE')
    expectRefusal(fitSteinhartHart([{ ...a, ohm: c.ohm }, b, { ...c, ohm: a.ohm }]), 'E_SAME_SIGNAL')
    expectRefusal(fitSteinhartHart([a, b, { ...c, ohm: 0 }]), 'E_SETTING')
    expectRefusal(fitCalibration({ kind: 'thermistor' }), 'E_RECIPE')
    expectRefusal(fitCalibration({ kind: 'thermistor', beta: { ohmAt25: 0, betaKelvin: 1 } }), 'E_SETTING')
    expectRefusal(
      fitCalibration({ kind: 'thermistor', points, divider: { seriesOhm: 0, fullScaleCounts: 1023 } }),
      'E_SETTING',
    )
    expectRefusal(fitted({ kind: 'thermistor', points }).valueAt(0), 'E_SIGNAL_RANGE')
  })
})
