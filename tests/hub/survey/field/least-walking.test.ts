import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { Quadrat } from '../../../../hub/contract/survey.ts'
import { leastWalking } from '../../../../hub/survey/field/least-walking.ts'

const on = (label: string, distanceMetres: number, transect = 'T1') =>
  Quadrat.parse({ label, transect, distanceMetres })
const labels = (order: ReturnType<typeof leastWalking>) => order.map(({ quadrat }) => quadrat.label)
const length = (order: ReturnType<typeof leastWalking>) =>
  order.reduce((sum, { metres }) => sum + (metres ?? 0), 0)

describe('the order of least walking', () => {
  test('on a tape, from within it: to the nearer end first, then all the way to the other', () => {
    const order = leastWalking([on('Q1', 0), on('Q2', 4), on('Q8', 16), on('Q9', 20)], on('Q3', 6))
    // by hand: 6 m down and 20 m up is 26 m; 14 m up and 20 m down would be 34 m; nearest first happens to agree
    expect(labels(order)).toEqual(['Q2', 'Q1', 'Q8', 'Q9'])
    expect(order.map(({ metres }) => metres)).toEqual([2, 4, 16, 4])
  })
  test('not simply the nearest first: that would cross the tape twice', () => {
    // by hand, from 10 m: nearest first goes 11, 8.5, 13, 0: 1 + 2.5 + 4.5 + 13 = 21 m; 11, 13, 8.5, 0: 3 + 4.5 + 8.5 = 16 m
    const order = leastWalking([on('A', 11), on('B', 8.5), on('C', 13), on('D', 0)], on('here', 10))
    expect(labels(order)).toEqual(['A', 'C', 'B', 'D'])
    expect(length(order)).toBeCloseTo(16, 9)
  })
  test('where nobody has said where the class is, it begins at an end', () => {
    const order = leastWalking([on('Q2', 4), on('Q1', 0), on('Q3', 9)], null)
    expect(length(order)).toBe(9)
    expect(order[0]!.metres).toBeNull()
  })
  test('a transect whose place is not known to the other is walked in one go, and its distance is not made up', () => {
    const order = leastWalking([on('A1', 0), on('B1', 1, 'T2'), on('A2', 5), on('B2', 3, 'T2')], on('A0', 1))
    expect(labels(order)).toEqual(['A1', 'A2', expect.stringMatching(/^B/), expect.stringMatching(/^B/)])
    expect(order[2]!.metres).toBeNull()
  })
  test('none, and one', () => {
    expect(leastWalking([], null)).toEqual([])
    expect(labels(leastWalking([on('Q1', 3)], on('Q2', 4)))).toEqual(['Q1'])
  })
  test('every stop once; up to eleven as short as can be on a tape, and beyond that at most twice that', () => {
    const places = fc.uniqueArray(fc.integer({ min: 0, max: 400 }), { minLength: 1, maxLength: 25 })
    fc.assert(
      fc.property(places, fc.integer({ min: 0, max: 400 }), (distances, here) => {
        const order = leastWalking(
          distances.map((distance) => on(`Q${distance}`, distance)),
          on('here', here),
        )
        expect(new Set(labels(order)).size).toBe(distances.length)
        const low = Math.min(here, ...distances)
        const high = Math.max(here, ...distances)
        // on a line: to one end, then to the other
        const best = high - low + Math.min(here - low, high - here)
        if (distances.length <= 11) expect(length(order)).toBe(best)
        else expect(length(order)).toBeLessThanOrEqual(2 * best)
      }),
      { numRuns: 60, seed: 7 },
    )
  })
})
