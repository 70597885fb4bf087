import { describe, expect, test } from 'vitest'
import { selfHeating } from '../../../hub/quality/self-heating.ts'
import { quadratOf, transectAround } from './field.ts'
import { scoreOf } from './score.ts'
import { alone, flagsOf, seriesOf } from './series.ts'

const config = selfHeating.defaults['soil_temperature']!
const around = (neighbours: number[], startMs: number | null = 60_000) =>
  alone({
    sameBoardRestarted: (timeMs, withinMs) =>
      startMs === null ? null : startMs <= timeMs && timeMs - startMs < withinMs,
    neighbours: () => neighbours.map((value, n) => ({ quadrat: `Q${n}`, distanceMetres: 1, value })),
  })
/** One reading a minute; the board starts with the second. */
const flags = (value: (number | null)[], known = around([10, 10])) =>
  flagsOf(selfHeating.run(seriesOf(value, { expectedIntervalMs: 60_000 }), config, known), value)

// Common practice, no source: the definition is in the doc comment of the test.
describe('a probe warmed by its own board', () => {
  test('below, at and above the rise over its neighbours since the start', () => {
    expect([10.9, 11, 11.1].map((last) => flags([10, 10, 10, 10, 10, last])[5])).toEqual([1, 1, 3])
  })

  test('warming with the neighbours is the day, and coming up to them is the tip settling', () => {
    const day = alone({
      ...around([]),
      neighbours: (timeMs) =>
        [0, 1].map((n) => ({ quadrat: `Q${n}`, distanceMetres: 1, value: 10 + timeMs / 60_000 })),
    })
    expect(flags([10, 11, 12, 13, 14, 15], day)).toEqual(Array(6).fill(1))
    expect(flags([2, 2, 3, 6, 9, 10])).toEqual(Array(6).fill(1))
  })

  test('a warmer place stays as much warmer as it was at the start', () => {
    expect(flags([15, 15, 15, 15, 15.9])).toEqual(Array(5).fill(1))
  })

  test('within half an hour of the start, and no longer', () => {
    const found = flags([10, ...Array(3).fill(10), ...Array(40).fill(13)])
    expect([found.indexOf(3), found.lastIndexOf(3)]).toEqual([4, 31])
  })

  test('without start-ups to tell, or with one neighbour, it is not evaluated', () => {
    expect(flags([10, 10, 10, 10, 13], around([10, 10], null))).toEqual(Array(5).fill(2))
    expect(flags([10, 10, 10, 10, 13], around([10]))).toEqual([1, 2, 2, 2, 2])
  })

  test('more neighbours are not asked for than are ever asked', () => {
    const wish = { ...config, fewestNeighbours: 25 }
    const value = [10, 10, 10, 10, 10, 13]
    const found = selfHeating.run(
      seriesOf(value, { expectedIntervalMs: 60_000 }),
      wish,
      around(Array(20).fill(10)),
    )
    expect(flagsOf(found, value)[5]).toBe(3)
  })

  test('asked about some readings only, it finds of them what it finds when asked about all, and asks little', () => {
    const value = [10, ...Array.from({ length: 45 }, (_, n) => 10 + n / 8)]
    let asked = 0
    const known = alone({
      ...around([]),
      neighbours: () => {
        asked++
        return [0, 1].map((n) => ({ quadrat: `Q${n}`, distanceMetres: 1, value: 10 }))
      },
    })
    const series = seriesOf(value, { expectedIntervalMs: 60_000 })
    const all = selfHeating.run(series, config, known)
    expect(all.filter((finding) => finding !== null && finding !== 'not evaluated').length).toBeGreaterThan(
      10,
    )
    for (const [from, to] of [
      [0, 46],
      [2, 3],
      [20, 25],
      [31, 46],
    ] as const) {
      asked = 0
      expect(selfHeating.run(series, config, known, { from, to }).slice(from, to)).toEqual(
        all.slice(from, to),
      )
      expect(asked).toBeLessThanOrEqual(to - from + 3)
    }
  })

  // Common practice, no source: towards 3 to 5 °C too much, within minutes of the start.
  test('finds simulated self-heating with precision and recall of at least 0.95', () => {
    const runs = Array.from({ length: 8 }, (_, seed) => {
      const [own, ...others] = [0.5, 0.4, 0.6].map((openness, place) =>
        quadratOf(10 * seed + place, openness, 10_000, 1000),
      )
      const startMs = own!.timeMs[300]!
      const excess = (n: number) => (n < 300 ? 0 : (3 + seed / 4) * (1 - Math.exp((n - 300) / -60)))
      const value = own!.soil_temperature.value.map((celsius, n) => celsius! + excess(n))
      const isFaulty = value.map((_, n) => excess(n) > 1.2 && n <= 480)
      const known = {
        ...transectAround(own!, others, 'soil_temperature'),
        sameBoardRestarted: (timeMs: number, withinMs: number) =>
          startMs <= timeMs && timeMs - startMs <= withinMs,
      }
      return { isFaulty, findings: selfHeating.run({ ...own!.soil_temperature, value }, config, known) }
    })
    const { precision, recall } = scoreOf(runs)
    expect(precision).toBeGreaterThanOrEqual(0.95)
    expect(recall).toBeGreaterThanOrEqual(0.95)
  })
})
