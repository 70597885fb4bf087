import { describe, expect, test } from 'vitest'
import { CHECK_CRITERIA, isRefusal, judgeCheck } from '../../calibration/index.ts'

// Limits: common practice, no source, but for pH 0.05 in a buffer not used in the fit (an electrode care note).
describe('judgeCheck holds a reading against a known reference', () => {
  const verdict = (quantity: string, reading: number, reference: number) => {
    const result = judgeCheck(quantity, reading, reference)
    return isRefusal(result) ? result.code : result.verdict
  }
  test('pH: below, at and above each limit, in both directions', () => {
    for (const sign of [-1, 1]) {
      const at = (off: number) => verdict('soil_ph', 7 + sign * off, 7)
      expect([at(0), at(0.049), at(0.05), at(0.051)]).toEqual(['pass', 'pass', 'pass', 'warn'])
      expect([at(0.099), at(0.1), at(0.101)]).toEqual(['warn', 'warn', 'fail'])
    }
  })
  test('light and wind: the wider of the absolute and the relative limit counts', () => {
    expect([verdict('illuminance', 40_000, 38_000), verdict('illuminance', 33_000, 38_000)]).toEqual([
      'pass',
      'warn',
    ])
    expect([verdict('illuminance', 5, 0), verdict('illuminance', 11, 0)]).toEqual(['pass', 'fail'])
    expect([verdict('wind_speed', 0.3, 0), verdict('wind_speed', 10.9, 10)]).toEqual(['pass', 'pass'])
  })
  test('every quantity’s limits widen from pass to warn', () => {
    for (const { pass, warn } of Object.values(CHECK_CRITERIA)) expect(warn).toBeGreaterThan(pass)
  })
  test('an unknown quantity and a number that is none are refused', () => {
    expect(verdict('leaf_wetness', 1, 1)).toBe('E_SETTING')
    expect(verdict('soil_ph', Number.NaN, 7)).toBe('E_NOT_FINITE')
  })
})
