import { describe, expect, it } from 'vitest'
import { chartRows } from '../../dashboard/charts/chart-rows.ts'
import { gapLimitMs, gapStarts, medianPauseMs } from '../../dashboard/charts/gaps.ts'
import { joinPoints, type SeriesPoint } from '../../dashboard/charts/series-points.ts'

const point = (timeMs: number, more: Partial<SeriesPoint> = {}): SeriesPoint => {
  const value = more.value === undefined ? 1 : more.value
  return { id: timeMs, timeMs, value, low: value, high: value, uncertainty: null, flag: 1, count: 1, ...more }
}

describe('gaps', () => {
  it('are pauses of more than three expected intervals: at three the line holds', () => {
    const limit = gapLimitMs([], 20)
    expect(gapStarts([0, 60_000], limit)).toEqual([])
    expect(gapStarts([0, 60_001], limit)).toEqual([1])
  })
  it('without an expected interval are five times the median pause', () => {
    const times = [0, 1000, 2000, 3000, 8000, 13_001]
    expect(medianPauseMs(times)).toBe(1000)
    expect(gapStarts(times, gapLimitMs(times, null))).toEqual([5])
  })
  it('are none in one point or none', () => {
    expect(gapStarts([], gapLimitMs([], null))).toEqual([])
    expect(gapStarts([5], gapLimitMs([5], null))).toEqual([])
  })
  it('do not cut a series of steps that are wider than the interval', () => {
    const times = [0, 100_000, 200_000, 300_000, 600_000]
    expect(gapStarts(times, gapLimitMs(times, 10, true))).toEqual([4])
  })
})

describe('chartRows', () => {
  it('are in seconds, with a null row inside a gap', () => {
    const rows = chartRows([point(0), point(10_000), point(100_000)], 10, 1)
    expect(rows.seconds).toEqual([0, 10, 55, 100])
    expect(rows.line).toEqual([1, 1, null, 1])
    expect(rows.points[2]).toBeNull()
  })
  it('leave failed readings out of the line but keep their point', () => {
    const rows = chartRows([point(0), point(1000, { flag: 4, value: 99 }), point(2000, { flag: 3 })], 1, 1)
    expect(rows.line).toEqual([1, null, 1])
    expect(rows.points[1]?.value).toBe(99)
  })
  it('have a band of two standard uncertainties, in the unit shown', () => {
    const rows = chartRows([point(0, { value: 0.5, uncertainty: 0.02 }), point(1000)], 1, 100)
    expect(rows.bandLow[0]).toBeCloseTo(46)
    expect(rows.bandHigh[0]).toBeCloseTo(54)
    expect(rows.bandLow[1]).toBeNull()
  })
  it('have a band from lowest to highest where a step stands for several readings', () => {
    const rows = chartRows([point(0, { id: null, low: 0.5, high: 2, count: 4, uncertainty: 0.1 })], null, 1)
    expect([rows.bandLow[0], rows.bandHigh[0]]).toEqual([0.5, 2])
  })
})

describe('joinPoints', () => {
  it('takes a reading once, and puts a late one in its place in time', () => {
    const joined = joinPoints([point(1000), point(3000)], [point(3000), point(2000), point(4000)], 3500)
    expect(joined.map(({ timeMs }) => timeMs)).toEqual([1000, 2000, 3000, 4000])
  })
  it('does not count again what a step has taken in', () => {
    const joined = joinPoints([point(1000, { id: null, count: 9 })], [point(900), point(2100)], 2000)
    expect(joined.map(({ timeMs }) => timeMs)).toEqual([1000, 2100])
  })
})
