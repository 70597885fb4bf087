import { describe, expect, it } from 'vitest'
import { nextOf, seededNumbers } from '../../../../hub/survey/plan/seeded-numbers.ts'

describe('nextOf', () => {
  it('gives the published numbers of xoshiro128** from the state 1, 2, 3, 4', () => {
    const state = new Uint32Array([1, 2, 3, 4])
    // source: the test vector of the Rust crate rand_xoshiro, which names the authors’ xoshiro128starstar.c 1.1
    expect(Array.from({ length: 10 }, () => nextOf(state))).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ])
  })
})

describe('seededNumbers', () => {
  const ten = (seed: number, stream?: number) => {
    const numbers = seededNumbers(seed, stream)
    return Array.from({ length: 10 }, () => numbers.wholeBelow(1000))
  }
  it('gives the same numbers for a seed, other numbers for another seed or stream', () => {
    expect(ten(7)).toEqual(ten(7))
    expect(ten(7)).not.toEqual(ten(8))
    expect(ten(7, 1)).not.toEqual(ten(7))
    expect(ten(7, 1)).not.toEqual(ten(7, 2))
  })
  it('stays below its limit, and is never asked for more than one number of one', () => {
    const numbers = seededNumbers(0)
    for (const below of [1, 2, 3, 7, 1000, 2 ** 31 + 1])
      for (let turn = 0; turn < 200; turn++) {
        const number = numbers.wholeBelow(below)
        expect(number).toBeGreaterThanOrEqual(0)
        expect(number).toBeLessThan(below)
      }
  })
})
