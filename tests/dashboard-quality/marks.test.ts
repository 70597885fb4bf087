import { describe, expect, it } from 'vitest'
import { chartRows } from '../../dashboard/charts/chart-rows.ts'
import { placeMarks } from '../../dashboard/charts/mark-places.ts'
import { pointsOf, type SeriesPoint } from '../../dashboard/charts/series-points.ts'
import type { ChartMark } from '../../hub/contract/reading.ts'

const mark = (timeMs: number, kind: ChartMark['kind'] = 'calibration'): ChartMark => ({
  timeMs,
  kind,
  quantity: 'soil_ph',
  probe: 'ph-1',
  text: `${kind} at ${timeMs}`,
})

describe('placeMarks', () => {
  it('stand where their time is, both ends of the chart included', () => {
    const places = placeMarks([mark(1000), mark(0), mark(500)], 0, 1000, 400, 44)
    expect(places.map(({ x }) => x)).toEqual([0, 200, 400])
  })
  it('outside the chart are not drawn', () => {
    expect(placeMarks([mark(-1), mark(1001)], 0, 1000, 400, 44)).toEqual([])
  })
  it('too close for one finger share a place, where the first of them is', () => {
    const marks = [mark(100), mark(100, 'placement'), mark(209), mark(210)]
    const places = placeMarks(marks, 0, 1000, 400, 44)
    expect(places.map(({ x, marks: here }) => [x, here.length])).toEqual([
      [40, 3],
      [84, 1],
    ])
  })
  it('need a chart', () => {
    expect(placeMarks([mark(5)], 5, 5, 400, 44)).toEqual([])
    expect(placeMarks([mark(5)], 0, 10, 0, 44)).toEqual([])
  })
})

describe('the line corrected for drift', () => {
  const point = (timeMs: number, more: Partial<SeriesPoint> = {}): SeriesPoint => {
    return { id: timeMs, timeMs, value: 5, low: 5, high: 5, uncertainty: null, flag: 1, count: 1, ...more }
  }
  it('is beside the other in the unit shown, and breaks where there is none', () => {
    const rows = chartRows(
      [point(0, { corrected: 4.9 }), point(10_000), point(20_000, { corrected: null })],
      10,
      2,
    )
    expect(rows.corrected).toEqual([9.8, null, null])
    expect(rows.line).toEqual([10, 10, 10])
  })
  it('breaks in a gap, and leaves failed readings out as the other does', () => {
    const rows = chartRows([point(0, { corrected: 4 }), point(100_000, { corrected: 4, flag: 4 })], 10, 1)
    expect(rows.corrected).toEqual([4, null, null])
  })
  it('comes from the hub’s list, aligned with its times', () => {
    const lists = { low: [1, 2], mean: [1, 2], high: [1, 2], uncertainty: [null, null], flag: [1, 1] }
    const series = {
      ...{
        channel: 1,
        quantity: 'soil_ph',
        unit: 'pH',
        probe: 'ph-1',
        method: {},
        expectedIntervalSeconds: 10,
      },
      ...{ timeMs: [0, 1], ...lists, count: [1, 1], id: [1, 2] },
    }
    expect(pointsOf({ ...series, corrected: [0.9, null] }).map((each) => each.corrected)).toEqual([0.9, null])
    expect(pointsOf({ ...series, corrected: null }).map((each) => each.corrected)).toEqual([null, null])
  })
})
