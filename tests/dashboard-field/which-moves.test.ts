import { describe, expect, test } from 'vitest'
import { isMoving, movedBy, type SignalAt } from '../../dashboard/field/which-moves.ts'
import { seededRandom } from '../calibration/seeded-random.ts'

const every = (seconds: number, signals: readonly number[]): SignalAt[] =>
  signals.map((signal, index) => ({ timeMs: index * seconds * 1000, signal }))
const noisy = (count: number, middle: number, spread: number, seed: number) => {
  const random = seededRandom(seed)
  return Array.from({ length: count }, () => random.even(middle - spread, middle + spread))
}

// by hand: the ratio of distances is worked out beside each case; five times is common practice, no source
describe('which one moves?', () => {
  test('a covered light sensor moves at once; its quiet neighbour does not', () => {
    expect(isMoving(every(1, [...noisy(60, 8000, 40, 1), 300, 280, 290]), 'count')).toBe(true)
    expect(isMoving(every(1, noisy(63, 8000, 40, 2)), 'count')).toBe(false)
  })
  test('shaking a board that stays around its middle moves it as well', () => {
    const shaken = [100, 140, 60]
    // wandering of 2 about 100: (0² + 40² + 40²)/3 under the root is 32.7, some sixteen times as far
    const before = Array.from({ length: 60 }, (_, index) => (index % 2 === 0 ? 98 : 102))
    expect(movedBy(every(1, [...before, ...shaken]), 'mV')).toBeCloseTo(Math.sqrt((2 * 40 ** 2) / 3) / 2, 9)
    expect(isMoving(every(1, [...before, ...shaken]), 'mV')).toBe(true)
  })
  test('a signal that settles slowly does not move: that is its own minute', () => {
    const settling = Array.from({ length: 63 }, (_, second) => 200 + 80 * Math.exp(-second / 20))
    expect(isMoving(every(1, settling), 'mV')).toBe(false)
  })
  test('a last digit that flips on a signal that stands still is no move; a breath of two degrees is', () => {
    const still = new Array<number>(20).fill(21.5)
    expect(isMoving(every(1, [...still, 21.5, 21.5, 21.56]), 'Cel')).toBe(false)
    // a digital thermometer near zero steps by 1/16 °C (its data sheet, tests/reference/temp-ds18b20.csv)
    expect(isMoving(every(1, [...new Array<number>(20).fill(0.25), 0.25, 0.3125, 0.3125]), 'Cel')).toBe(false)
    expect(isMoving(every(1, [...still, 21.9, 22.8, 23.5]), 'Cel')).toBe(true)
  })
  test('a board that samples every 10 s is judged by its last six before', () => {
    const slow = every(10, [500, 502, 499, 501, 500, 500, 20, 22, 21])
    expect(isMoving(slow, 'count')).toBe(true)
    // a large change more than a minute ago is forgotten
    expect(isMoving(every(10, [20, 21, 500, 502, 499, 501, 500, 500, 501, 499, 502]), 'count')).toBe(false)
  })
  test('with too few signals nothing is said', () => {
    expect(movedBy([], '')).toBeNull()
    expect(movedBy(every(1, [1, 2, 3]), '')).toBeNull()
    expect(movedBy(every(1, [1, 1, 1, 1, 1, 9, 9, 9]), '')).toBeNull()
    expect(movedBy(every(1, [1, 1, 1, 1, 1, 1, 9, 9, 9]), '')).not.toBeNull()
  })
})
