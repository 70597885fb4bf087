import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  findBounce,
  fitCalibration,
  isRefusal,
  summariseSpeeds,
  summariseWind,
  WIND_FORCES,
  type WindSummary,
  windAtTwoMetres,
  windByLogProfile,
  windForce,
  windFromHertz,
  windFromPulses,
} from '../../calibration/index.ts'
import { expectRefusal, fitted, readAt } from './expect-fitted.ts'
import { referenceJson, referenceRows } from './reference-files.ts'

const wind = referenceJson('wind.json')
const CUP = { offsetMetresPerSecond: 0.3, slopeMetresPerSecondPerHertz: 0.66 }

describe('a cup anemometer', () => {
  test('offset and slope; no pulses is calm, never the offset', () => {
    // wind.json transfer cases: U = A + B·f, ISO 17713-1
    for (const cup of wind.transfer.cases) {
      const curve = fitted({
        kind: 'cup-anemometer',
        offsetMetresPerSecond: cup.offset_m_s,
        slopeMetresPerSecondPerHertz: cup.slope_m_per_pulse,
      })
      for (const { freq_Hz, report_m_s } of cup.cases) {
        const value = readAt(curve, freq_Hz)
        expect(value.value).toBeCloseTo(report_m_s, 9)
        expect(value.remarks).toEqual(freq_Hz === 0 ? ['calm'] : [])
      }
    }
  })

  test('pairs from a tunnel give the published regression', () => {
    const { freq_Hz, speed, slope, offset } = wind.transfer.regression
    const pairs = freq_Hz.map((hertz: number, k: number) => ({ hertz, metresPerSecond: speed[k] }))
    const curve = fitted({ kind: 'cup-anemometer', pairs })
    // frequency is regressed on the reference speed and read backwards; with r = 0.99998 the two lines differ by 4e-5
    expect(curve.facts['slopeMetresPerSecondPerHertz']).toBeCloseTo(slope, 4)
    expect(curve.facts['offsetMetresPerSecond']).toBeCloseTo(offset, 3)
    expect(curve.verdict).toBe('pass')
    expect(readAt(curve, 15).degreesOfFreedom).toBe(11)
    expect(readAt(curve, 30).remarks).toEqual(['extrapolated'])
    expect(readAt(curve, 0)).toMatchObject({ value: 0, remarks: ['calm'] })
    expect(curve.signalAt(readAt(curve, 12).value)).toBeCloseTo(12, 9)
  })

  test('a count over an interval is the same wind as its frequency', () => {
    const counted = fitted({ kind: 'cup-anemometer', ...CUP, countSeconds: 60 })
    expect(counted.signalUnits).toEqual(['count'])
    expect(readAt(counted, 138).value).toBeCloseTo(0.3 + 0.66 * 2.3, 9)
    expect(counted.budget(138).map((line) => line.name)).toEqual(['resolution'])
    expect(counted.signalAt(0.3 + 0.66 * 2.3)).toBeCloseTo(138, 9)
    expect(counted.signalAt(0)).toBe(0)
    expect(counted.signalAt(0.2)).toBeNull()
  })

  test('calm has the starting threshold as its limit; a stated uncertainty is passed on', () => {
    const curve = fitted({
      kind: 'cup-anemometer',
      ...CUP,
      startingThresholdMetresPerSecond: 0.5,
      standardUncertaintyMetresPerSecond: 0.1,
    })
    expect(readAt(curve, 0).standardUncertainty).toBeCloseTo(0.5 / Math.sqrt(3), 9)
    expect(readAt(curve, 5).standardUncertainty).toBeCloseTo(0.1, 9)
    expect(curve.budget(0)).toHaveLength(1)
    expect(readAt(fitted({ kind: 'cup-anemometer', ...CUP }), 5).standardUncertainty).toBeNull()
  })

  test('a storm no class instrument meets is impossible', () => {
    const curve = fitted({ kind: 'cup-anemometer', ...CUP })
    expect(readAt(curve, (40 - 0.3) / 0.66 - 1e-9).remarks).toEqual([])
    expect(readAt(curve, 61).remarks).toContain('impossible')
  })

  test('negative pulses, no interval, no factor, a wrong factor are refused', () => {
    expectRefusal(fitted({ kind: 'cup-anemometer', ...CUP }).valueAt(-1), 'E_COUNT')
    expectRefusal(windFromPulses(-1, 600, CUP), 'E_COUNT')
    expectRefusal(windFromPulses(1.5, 600, CUP), 'E_COUNT')
    expectRefusal(windFromPulses(10, 0, CUP), 'E_INTERVAL')
    expectRefusal(fitCalibration({ kind: 'cup-anemometer', ...CUP, countSeconds: 0 }), 'E_INTERVAL')
    expectRefusal(fitCalibration({ kind: 'cup-anemometer' }), 'E_RECIPE')
    expectRefusal(
      fitCalibration({ kind: 'cup-anemometer', ...CUP, slopeMetresPerSecondPerHertz: 0 }),
      'E_SETTING',
    )
    expectRefusal(fitCalibration({ kind: 'cup-anemometer', ...CUP, offsetMetresPerSecond: 5.1 }), 'E_SETTING')
    expectRefusal(
      fitCalibration({ kind: 'cup-anemometer', pairs: [{ hertz: -1, metresPerSecond: 1 }] }),
      'E_COUNT',
    )
    expectRefusal(
      fitCalibration({ kind: 'cup-anemometer', pairs: [{ hertz: 1, metresPerSecond: 1 }] }),
      'E_POINTS_FEW',
    )
    const falling = [
      { hertz: 5, metresPerSecond: 2 },
      { hertz: 2, metresPerSecond: 4 },
    ]
    expectRefusal(fitCalibration({ kind: 'cup-anemometer', pairs: falling }), 'E_SETTING')
  })

  test('two pairs warn, scattered pairs fail', () => {
    const pairs = [
      { hertz: 2, metresPerSecond: 1.6 },
      { hertz: 8, metresPerSecond: 5.6 },
    ]
    expect(fitted({ kind: 'cup-anemometer', pairs })).toMatchObject({ verdict: 'warn' })
    const scattered = [1, 6, 2, 7, 3, 8].map((hertz, k) => ({ hertz, metresPerSecond: 1 + k }))
    expect(fitted({ kind: 'cup-anemometer', pairs: scattered }).verdict).toBe('fail')
  })
})

describe('ten minutes of wind', () => {
  function summary(counts: number[], blockSeconds?: number): WindSummary {
    const found = summariseWind(counts, CUP, blockSeconds)
    if (isRefusal(found)) throw new Error(found.message)
    return found
  }

  test('two calm minutes of ten and 1380 pulses: 1.76 m/s, calm 20 %, whole interval 1.82', () => {
    const counts: number[] = Array.from({ length: 600 }, (_, second) => {
      const minute = Math.floor(second / 60)
      return minute === 2 || minute === 7 ? 0 : second % 8 < 7 ? 3 : 2
    })
    // 8 minutes hold 1380 pulses: the remainder is put into single seconds
    let missing = 1380 - counts.reduce((sum, each) => sum + each, 0)
    for (let second = 0; missing !== 0; second++) {
      if (counts[second]! > 0) {
        counts[second]! += Math.sign(missing)
        missing -= Math.sign(missing)
      }
    }
    const found = summary(counts)
    expect(found.suspectSeconds).toEqual([])
    expect(found.meanMetresPerSecond).toBeCloseTo(1.758, 3)
    expect(found.calmPercent).toBe(20)
    expect(found.wholeIntervalMetresPerSecond).toBeCloseTo(1.818, 3)
    expect(found.blockMeansMetresPerSecond).toHaveLength(10)
    expect(found.twoMinuteMeansMetresPerSecond).toHaveLength(5)
    expect(found.tenMinuteMeansMetresPerSecond).toEqual([expect.closeTo(1.758, 3)])
  })

  test('the gust is the largest three-second mean: 5.58, not the second’s 6.24', () => {
    expect(summary([3, 4, 9, 8, 7, 4, 3]).gustMetresPerSecond).toBeCloseTo(5.58, 9)
    expect(summary([3, 4, 9, 8, 7, 4, 3]).gustEndsAtSecond).toBe(4)
    expect(windFromHertz(9, CUP)).toBeCloseTo(6.24, 9)
  })

  test('a second that bounced is found and left out of gust and mean', () => {
    const found = summary([3, 4, 9, 8, 18, 7, 4, 3])
    expect(found.suspectSeconds).toEqual([4])
    expect(found.gustMetresPerSecond).toBeCloseTo(5.58, 9)
    expect(found.meanIncludesSuspectSeconds).toBe(false)
    expect(found.meanMetresPerSecond).toBeCloseTo(0.3 + (0.66 * 38) / 7, 9)
    expect(findBounce([0, 5, 0])).toEqual([])
    expect(findBounce([0, 6, 0])).toEqual([1])
    expect(findBounce([6, 12, 6])).toEqual([])
  })

  test('empty, one, two seconds; still air; and counts that cannot be', () => {
    expectRefusal(summariseWind([], CUP), 'E_POINTS_FEW')
    expect(summary([4])).toMatchObject({ gustMetresPerSecond: null, gustEndsAtSecond: null })
    expect(summary([4, 4]).gustMetresPerSecond).toBeNull()
    expect(summary([0, 0, 0, 0])).toMatchObject({
      meanMetresPerSecond: 0,
      calmPercent: 100,
      gustMetresPerSecond: 0,
    })
    expectRefusal(summariseWind([1, -1], CUP), 'E_COUNT')
    expectRefusal(summariseWind([1], CUP, 0), 'E_INTERVAL')
    expectRefusal(summariseWind([1], { ...CUP, slopeMetresPerSecondPerHertz: -1 }), 'E_SETTING')
  })

  test('speeds given once a second: mean, highest and gust', () => {
    // wind.json averaging mini_case, by definition
    const { series_1_per_s, mean, max_sample, gust_3s, gust_ends_at_index } = wind.averaging.mini_case
    const found = summariseSpeeds(series_1_per_s)
    if (isRefusal(found)) throw new Error(found.message)
    expect(found.meanMetresPerSecond).toBeCloseTo(mean, 9)
    expect(found.highestMetresPerSecond).toBe(max_sample)
    expect(found.gustMetresPerSecond).toBeCloseTo(gust_3s, 9)
    expect(found.gustEndsAtSecond).toBe(gust_ends_at_index)
    expectRefusal(summariseSpeeds([]), 'E_POINTS_FEW')
    expectRefusal(summariseSpeeds([1, -0.1]), 'E_SETTING')
    expect(summariseSpeeds([2])).toMatchObject({ gustMetresPerSecond: null, gustEndsAtSecond: null })
  })

  test('the gust is never above the highest second nor below the mean of whole threes', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(30), { minLength: 3, maxLength: 90 }), (counts) => {
        const found = summary(counts, 30)
        if (found.gustMetresPerSecond === null) return
        expect(found.gustMetresPerSecond).toBeLessThanOrEqual(windFromHertz(Math.max(...counts), CUP) + 1e-9)
      }),
      { seed: 2 },
    )
  })
})

describe('height and force', () => {
  test('factors to 2 m, by height', () => {
    // FAO-56 eq. 47; rows computed, 2 m and 10 m verified
    for (const row of referenceRows('wind-height-factors.csv')) {
      expect(windAtTwoMetres(1, Number(row['z_m']))).toBeCloseTo(Number(row['factor_6dp']), 6)
    }
    for (const { uz, z, u2 } of wind.height.more) expect(windAtTwoMetres(uz, z)).toBeCloseTo(u2, 6)
    expect(windAtTwoMetres(3.2, 10)).toBeCloseTo(wind.height.example_14.u2, 6)
  })

  test('at ground level the rule is refused', () => {
    expectRefusal(windAtTwoMetres(3, 0.08), 'E_HEIGHT')
    expectRefusal(windAtTwoMetres(3, 0.0999), 'E_HEIGHT')
    expect(isRefusal(windAtTwoMetres(3, 0.1))).toBe(false)
    expectRefusal(windAtTwoMetres(3, Number.POSITIVE_INFINITY), 'E_HEIGHT')
    expectRefusal(windAtTwoMetres(-1, 2), 'E_SETTING')
  })

  test('the logarithmic profile: same height unchanged, both ways undone, ground refused', () => {
    expect(windByLogProfile(3, { fromMetres: 2, toMetres: 2 })).toBe(3)
    const up = windByLogProfile(3, { fromMetres: 2, toMetres: 10 }) as number
    // ln(10/0.03)/ln(2/0.03) = 1.3832
    expect(up).toBeCloseTo(3 * 1.3832, 3)
    expect(windByLogProfile(up, { fromMetres: 10, toMetres: 2 })).toBeCloseTo(3, 9)
    expectRefusal(windByLogProfile(3, { fromMetres: 0.03, toMetres: 2 }), 'E_HEIGHT')
    expectRefusal(windByLogProfile(3, { fromMetres: 0.5, toMetres: 2, displacementMetres: 0.6 }), 'E_HEIGHT')
    expectRefusal(windByLogProfile(3, { fromMetres: 1, toMetres: 2, roughnessMetres: 0 }), 'E_SETTING')
  })

  test('every force of the table from its lower to its upper limit', () => {
    // WMO Beaufort equivalents at 10 m
    for (const row of referenceRows('wind-beaufort.csv')) {
      const wanted = { force: Number(row['force']), name: row['name'] }
      expect(windForce(Number(row['from_m_s']))).toMatchObject(wanted)
      expect(windForce(Number(row['to_m_s'] || '60'))).toMatchObject(wanted)
    }
    expect(WIND_FORCES.map((each) => each.force)).toEqual([...Array(13).keys()])
  })

  test('between printed limits the speed is rounded to 0.1', () => {
    expect(windForce(0.24)).toMatchObject({ force: 0 })
    expect(windForce(0.26)).toMatchObject({ force: 1 })
    expectRefusal(windForce(-0.1), 'E_SETTING')
    expectRefusal(windForce(Number.NaN), 'E_NOT_FINITE')
  })
})
