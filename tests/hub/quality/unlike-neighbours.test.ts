import { describe, expect, test } from 'vitest'
import { unlikeNeighbours } from '../../../hub/quality/unlike-neighbours.ts'
import { quadratOf, transectAround } from './field.ts'
import { scoreOf } from './score.ts'
import { alone, flagsOf, seriesOf } from './series.ts'

const config = unlikeNeighbours.config.parse({
  withinMs: 600_000,
  withinMetres: 30,
  fewestNeighbours: 3,
  allowedDifference: 2,
  allowedDeviations: 5,
})
const beside = (values: number[], distanceMetres = 1) =>
  alone({ neighbours: () => values.map((value, n) => ({ quadrat: `Q${n}`, distanceMetres, value })) })
const flag = (value: number | null, values: number[], metres?: number) =>
  flagsOf(unlikeNeighbours.run(seriesOf([value]), config, beside(values, metres)), [value])[0]

// Source: QARTOD manuals, neighbour test; scaled MAD: Rousseeuw & Croux 1993. Limits: common practice, no source.
describe('neighbour comparison', () => {
  test('below, at, at and above the allowed difference: only ever suspect', () => {
    expect([2.99, 3, 7, 7.01, 500].map((value) => flag(value, [5, 5, 5]))).toEqual([3, 1, 1, 3, 3])
  })

  // The median of 3, 5, 8 is 5, their MAD 2: five robust deviations are 5 · 1.4826 · 2 = 14.826.
  test('neighbours that differ among themselves allow more', () => {
    expect([19.82, 19.83].map((value) => flag(value, [3, 5, 8]))).toEqual([1, 3])
  })

  test('one wild neighbour moves nothing', () => {
    expect([flag(5, [5, 5, 5, 900]), flag(8, [5, 5, 5, 900])]).toEqual([1, 3])
  })

  test('too few, too far, or no value: not evaluated', () => {
    expect([
      flag(50, [5, 5]),
      flag(50, [5, 5, 5], 31),
      flag(50, [5, 5, 5], 30),
      flag(null, [5, 5, 5]),
    ]).toEqual([2, 2, 3, 9])
  })

  test('light, wind and moisture are the habitat and are not compared', () => {
    expect(Object.keys(unlikeNeighbours.defaults).sort()).toEqual(['soil_ph', 'soil_temperature'])
  })

  // Common practice, no source: an electrode whose offset has run away by 5 pH.
  test('finds a simulated probe gone astray with precision and recall of at least 0.95', () => {
    const runs = Array.from({ length: 6 }, (_, seed) => {
      const [own, ...others] = [0.4, 0.1, 0.5, 0.9].map((openness, place) =>
        quadratOf(10 * seed + place, openness, 60_000, 600),
      )
      const isFaulty = own!.timeMs.map((_, n) => n >= 250 && n < 400)
      const value = own!.soil_ph.value.map((ph, n) => ph! + (isFaulty[n] ? 5 : 0))
      const around = transectAround(own!, others, 'soil_ph')
      return {
        isFaulty,
        findings: unlikeNeighbours.run(
          { ...own!.soil_ph, value },
          unlikeNeighbours.defaults['soil_ph']!,
          around,
        ),
      }
    })
    const { precision, recall } = scoreOf(runs)
    expect(Math.min(precision, recall)).toBeGreaterThanOrEqual(0.95)
  })
})
