import { describe, expect, it } from 'vitest'
import { type Fitted, fitCalibration, isRefusal, type Recipe } from '../../calibration/index.ts'
import { budgetAt } from '../../dashboard/bench/fit/budget-words.ts'
import {
  bandPath,
  expandedOf,
  residualReach,
  roundSteps,
  sampleCurve,
  scaleOver,
  signalStretch,
} from '../../dashboard/bench/fit/plot-geometry.ts'
import { residualOf } from '../../dashboard/bench/fit/plot-points.ts'
import { differenceText, uncertaintyDigits, withExpanded } from '../../dashboard/bench/fit/value-digits.ts'
import { recordPoints } from '../../dashboard/bench/records/record-points.ts'

const point = (millivolt: number, buffer: string, role?: 'check') => ({
  millivolt,
  temperatureCelsius: 15,
  bufferSet: 'technical',
  buffer,
  scatterMillivolt: 0.3,
  n: 4,
  ...(role ? { role } : {}),
})
const a01: Recipe = { kind: 'ph-electrode', points: [point(6, '7'), point(176.3, '4')] }
const curveOf = (recipe: Recipe): Fitted => {
  const fitted = fitCalibration(recipe)
  if (isRefusal(fitted)) throw new Error(fitted.message)
  return fitted
}

describe('the stretch of signals drawn', () => {
  it('takes in the points with air, and a live signal that is near', () => {
    const fitted = curveOf(a01)
    const points = recordPoints(a01)
    const [low, high] = signalStretch(fitted, points, null)
    expect(low).toBeLessThan(6)
    expect(high).toBeGreaterThan(176.3)
    expect(signalStretch(fitted, points, 230)[1]).toBe(230)
    expect(signalStretch(fitted, points, 5000)[1]).toBe(high)
  })
  it('never begins below 0 counts, and has a stretch without any point', () => {
    const light: Recipe = { kind: 'light-counts', sensor: 'bh1750' }
    expect(signalStretch(curveOf(light), [], null)[0]).toBe(0)
    expect(signalStretch(curveOf({ kind: 'digital-temperature' }), [], null)).toEqual([0, 35.4])
  })
})

describe('the band of uncertainty', () => {
  it('is narrowest between the buffers and shrinks with a third point', () => {
    const fitted = curveOf(a01)
    const samples = sampleCurve(fitted, [-100, 300])
    const at = (signal: number) =>
      samples.reduce((near, each) =>
        Math.abs(each.signal - signal) < Math.abs(near.signal - signal) ? each : near,
      ).expanded!
    expect(at(90)).toBeLessThan(at(-100))
    expect(at(90)).toBeLessThan(at(300))
    const three: Recipe = { kind: 'ph-electrode', points: [...a01.points, point(-164.4, '10')] }
    const [before] = sampleCurve(fitted, [-160, -160.1])
    const [after] = sampleCurve(curveOf(three), [-160, -160.1])
    expect(after!.expanded).toBeLessThan(before!.expanded!)
  })
  it('is left out where it cannot be known', () => {
    expect(expandedOf(null, 3)).toBeNull()
    expect(expandedOf(0.1, Number.NaN)).toBeNull()
    expect(expandedOf(1, Number.POSITIVE_INFINITY)).toBeCloseTo(1.96, 2)
    const scale = scaleOver([0, 1], 0, 100)
    expect(bandPath([{ signal: 0, value: 0, expanded: null }], scale, scale, () => 0, 1)).toBe('')
  })
})

describe('stems', () => {
  it('are nothing for two points and the error of a check that is off', () => {
    const fitted = curveOf(a01)
    for (const each of recordPoints(a01)) expect(residualOf(fitted, each)).toBeCloseTo(0, 9)
    const checked: Recipe = { kind: 'ph-electrode', points: [...a01.points, point(-150, '10', 'check')] }
    const [, , check] = recordPoints(checked)
    expect(check!.isCheck).toBe(true)
    expect(Math.abs(residualOf(curveOf(checked), check!)!)).toBeGreaterThan(0.2)
    expect(residualReach(curveOf(checked), [], recordPoints(checked))).toBeGreaterThan(0.2)
  })
})

describe('scales', () => {
  it('count in round steps with just the digits they need', () => {
    expect(roundSteps({ low: 3.4, high: 7.6 })).toEqual({ at: [4, 5, 6, 7], decimals: 0 })
    expect(roundSteps({ low: -0.03, high: 0.03 }, 3).decimals).toBe(2)
    expect(roundSteps({ low: 0, high: 28_000 }).at).toEqual([0, 10_000, 20_000])
  })
  it('survive a single number and none', () => {
    expect(Number.isFinite(scaleOver([5, 5], 0, 10).at(5))).toBe(true)
    expect(Number.isFinite(scaleOver([], 0, 10).at(0.5))).toBe(true)
  })
})

describe('how sure a value is', () => {
  it('is the same in the budget as at the value itself, also where parts share one estimate of scatter', () => {
    const pairs = [
      { hertz: 2.6, metresPerSecond: 2 },
      { hertz: 7.6, metresPerSecond: 5 },
      { hertz: 13.9, metresPerSecond: 9 },
    ]
    const fitted = curveOf({ kind: 'cup-anemometer', pairs })
    const value = fitted.valueAt(9)
    if (isRefusal(value)) throw new Error(value.message)
    expect(budgetAt(fitted, 9, null)!.expanded).toBeCloseTo(
      expandedOf(value.standardUncertainty, value.degreesOfFreedom)!,
      12,
    )
  })
  it('adds up to the whole and names the part that counts', () => {
    const budget = budgetAt(curveOf(a01), 84, null)!
    expect(budget.lines.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9)
    expect(budget.expanded).toBeCloseTo(budget.coverage * budget.standardUncertainty, 12)
    expect(budget.dominant).toMatch(/^Most of it \(\d+ %\) comes from the references themselves\./)
  })
  it('is not invented where it is unknown', () => {
    expect(budgetAt(curveOf({ kind: 'already-a-value', unit: 'pH' }), 5, null)).toBeNull()
  })
  it('is written with the digits it allows', () => {
    expect(withExpanded(3.9968, 0.0253, 'pH')).toBe('pH\u00a04.00\u00a0±\u00a00.03')
    expect(withExpanded(20_080, 412, 'lx')).toBe('20\u202f080\u00a0±\u00a0412\u00a0lx')
    expect(withExpanded(0.5, 0.0042, '/')).toBe('50.0\u00a0±\u00a00.4\u00a0%')
    expect(withExpanded(7, 0.0004, 'pH')).toBe('pH\u00a07.00\u00a0±\u00a0less than 0.01')
    expect(uncertaintyDigits(0.0118, 'pH')).toBe('0.012')
    expect(differenceText(-0.012, '/')).toBe('−1.2\u00a0%')
    expect(differenceText(0.001, 'pH')).toBe('0.00')
  })
})
