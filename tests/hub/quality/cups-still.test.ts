import { describe, expect, test } from 'vitest'
import { cupsStill } from '../../../hub/quality/cups-still.ts'
import { quadratOf, transectAround } from './field.ts'
import { scoreOf } from './score.ts'
import { alone, flagsOf, seriesOf } from './series.ts'

const config = cupsStill.defaults['wind_speed']!
const beside = (...speeds: [metresPerSecond: number, distanceMetres: number][]) =>
  alone({
    neighbours: () =>
      speeds.map(([value, distanceMetres], n) => ({ quadrat: `Q${n}`, distanceMetres, value })),
  })
/** One reading a minute. */
const flags = (value: (number | null)[], around = beside([3, 2])) =>
  flagsOf(
    cupsStill.run(
      seriesOf(value, { expectedIntervalMs: 60_000, quantity: 'wind_speed', signalUnit: 'Hz' }),
      config,
      around,
    ),
    value,
  )
const still = (minutes: number) => [1, ...Array(minutes + 1).fill(0), 1]

// Common practice, no source: zero for half an hour while another station shows more than 1.5 m/s.
describe('cups that stand still', () => {
  test('below, at and above half an hour; the first minutes belong to it as well', () => {
    expect([29, 30, 31].map((minutes) => flags(still(minutes)).filter((flag) => flag === 3).length)).toEqual([
      0, 31, 32,
    ])
  })

  test('below, at and above the neighbour’s speed', () => {
    expect([1.4, 1.5, 1.6].map((speed) => flags(still(40), beside([speed, 2]))[20])).toEqual([1, 1, 3])
  })

  test('the nearest anemometer counts: a wood does not feel the wind of the meadow', () => {
    expect(flags(still(40), beside([4, 20], [0.2, 2]))[20]).toBe(1)
    expect(flags(still(40), beside([0.2, 20], [4, 2]))[20]).toBe(3)
  })

  test('without a neighbour near enough it is not evaluated, and moving cups pass anyway', () => {
    expect(flags(still(40), beside([4, 51]))[20]).toBe(2)
    expect(flags(still(40), beside([4, 50]))[20]).toBe(3)
    expect(flags([0.4, 0.5, null], alone())).toEqual([1, 1, 9])
  })

  test('one turn, a missing value and a gap begin the half hour anew', () => {
    const halves = (middle: number | null) => flags([...Array(25).fill(0), middle, ...Array(25).fill(0)])
    expect(halves(0.5)).not.toContain(3)
    expect(halves(null)).not.toContain(3)
    expect(halves(0)).toContain(3)
  })

  // Common practice, no source: a web in the cups of one of three stations on the bank.
  test('finds simulated blocked cups with precision and recall of at least 0.95', () => {
    const runs = Array.from({ length: 6 }, (_, seed) => {
      const [own, ...others] = [0.9, 0.8, 1].map((openness, place) =>
        quadratOf(10 * seed + place, openness, 10_000, 3000),
      )
      const isFaulty = own!.timeMs.map((_, n) => n >= 800 && n < 2200)
      const value = own!.wind_speed.value.map((speed, n) => (isFaulty[n] ? 0 : speed))
      const around = transectAround(own!, others, 'wind_speed')
      return { isFaulty, findings: cupsStill.run({ ...own!.wind_speed, value }, config, around) }
    })
    const { precision, recall } = scoreOf(runs)
    expect(Math.min(precision, recall)).toBeGreaterThanOrEqual(0.95)
  })
})
