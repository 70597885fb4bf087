import { describe, expect, test } from 'vitest'
import { spearman } from '../../../../hub/study/statistics/spearman.ts'
import {
  type CorrelationToRead,
  wordsForCorrelation,
} from '../../../../hub/study/statistics/words-for-correlation.ts'
import { answered } from './answered.ts'

// wording and limits: common practice, no source
const LIGHT = [3, 5, 8, 12, 20, 33, 47, 60, 78, 95]
const GRASS = [2, 0, 5, 5, 12, 30, 25, 60, 55, 80]

function read(count: number, more: Partial<CorrelationToRead> = {}) {
  const found = answered(spearman(LIGHT.slice(0, count), GRASS.slice(0, count)))
  return wordsForCorrelation({ factor: 'relative light', species: 'grass cover', ...found, ...more })
}

const names = (words: ReturnType<typeof wordsForCorrelation>) => words.cautions.map(({ name }) => name)

describe('wordsForCorrelation', () => {
  test('ten quadrats: coefficient, n, p and method, what it means, and that it is no cause', () => {
    const words = read(10)
    expect(words.result).toBe(
      'The rank correlation of relative light with grass cover is 0.96 (Spearman, n = 10, p < 0.001, exact permutation, ties as mid-ranks).',
    )
    expect(words.verdict).toContain('Where relative light is higher, grass cover tends to be higher.')
    expect(words.verdict).toContain('significant')
    expect(names(words)).toEqual(['not-cause'])
    expect(words.paragraph.startsWith(words.result!)).toBe(true)
  })

  test('a falling one is lower, with a true minus sign', () => {
    const words = read(10, { rho: -0.955 })
    expect(words.result).toContain('−0.9')
    expect(words.verdict).toContain('tends to be lower')
  })

  test('five rows only: few, and not significant', () => {
    const words = read(5)
    expect(names(words)).toContain('few')
    expect(words.verdict).toMatch(/^That is not significant/)
  })

  test('how few: 4 no test, 5 and 7 warned, 8 not', () => {
    expect([4, 5, 7, 8].map((n) => names(read(n))[0])).toEqual(['too-few', 'few', 'few', 'not-cause'])
    const four = read(4)
    expect(four.result).toContain('no test is made')
    expect(four.paragraph).not.toMatch(/p [=<]/)
    expect(four.verdict).not.toContain('significant')
  })

  test('not defined is said as such', () => {
    const found = answered(spearman([1, 2, 3], [0, 0, 0]))
    const words = wordsForCorrelation({ factor: 'soil pH', species: 'nettle', ...found })
    expect(words.result).toBe(
      'There is no rank correlation of soil pH with nettle (n = 3): it is not defined where all values of one are the same, or for a single quadrat.',
    )
    expect(words.paragraph).not.toMatch(/NaN|null/)
  })

  test('the clock is named above 0.6 in either direction, not at it', () => {
    expect(
      [0.6, 0.61, -0.61, null].map((rhoWithTime) => names(read(10, { rhoWithTime })).includes('clock')),
    ).toEqual([false, true, true, false])
    expect(read(10, { rhoWithTime: -0.8 }).paragraph).toContain('may be the clock, not the place')
  })

  test('many tests: how many false alarms, and Holm’s first threshold', () => {
    const words = read(10, { testCount: 24 })
    expect(words.paragraph).toContain('24 tests were run: about 1.2 would look significant by chance alone')
    expect(words.paragraph).toContain('0.0021 or less')
    expect(read(10, { testCount: 24, adjustedP: 0.2 }).verdict).toContain(
      'among all the tests that were run it is not',
    )
    expect(names(read(10, { testCount: 1 }))).not.toContain('many-tests')
  })

  test('humps and neighbours', () => {
    const words = read(10, { hump: 'hump', areNeighbours: true })
    expect(names(words)).toEqual(['hump', 'neighbours', 'not-cause'])
    expect(read(10, { hump: 'dip' }).paragraph).toContain('least in the middle')
  })

  test('held back: no number, no verdict and no hump is given away, the warnings stay', () => {
    const words = read(10, { isVerdictHeldBack: true, hump: 'hump', areNeighbours: true })
    expect(words).toMatchObject({ result: null, verdict: null })
    expect(words.paragraph).toMatch(/^Write down first what you expect/)
    expect(words.paragraph).not.toMatch(/0\.96|significant|tends|middle/)
    expect(names(words)).toEqual(['neighbours', 'not-cause'])
  })
})
