import { describe, expect, test } from 'vitest'
import { redrawRobustness } from '../../../../hub/study/statistics/redraw-robustness.ts'
import { normalDraws } from '../../../../hub/study/statistics/seeded-draws.ts'
import { answered, refusedWith } from './answered.ts'

const x = [4.1, 4.4, 4.6, 5, 5.3, 5.5, 5.9, 6.2, 6.4, 6.8]
const y = [2, 0, 5, 6, 12, 30, 25, 60, 55, 80]

describe('redrawRobustness', () => {
  test('no uncertainty: every redraw is the measured one', () => {
    const found = answered(redrawRobustness({ x, y, independentStandardUncertainty: 0, redraws: 50 }))
    expect(found.significantShare).toBe(1)
    expect([found.medianRho, found.lowRho, found.highRho]).toEqual([found.rho, found.rho, found.rho])
  })

  test('what is common to all x cannot change their order', () => {
    const found = answered(
      redrawRobustness({
        x,
        y,
        independentStandardUncertainty: 0,
        sharedStandardUncertainty: 0.5,
        redraws: 200,
      }),
    )
    expect(found.significantShare).toBe(1)
  })

  test('the larger the uncertainty the fewer redraws stay significant, down to the false alarms of chance', () => {
    const share = (uncertainty: number) =>
      answered(redrawRobustness({ x, y, independentStandardUncertainty: uncertainty, redraws: 2000 }))
        .significantShare!
    const [small, middle, drowned] = [share(0.1), share(1), share(1000)]
    expect(small).toBeGreaterThan(0.99)
    expect(middle).toBeLessThan(small)
    expect(middle).toBeGreaterThan(drowned)
    // one tail of 0.05: the sign has to be that of the measured one. 0.025 ± 4 standard errors of 2000 draws
    expect(drowned).toBeGreaterThan(0.011)
    expect(drowned).toBeLessThan(0.039)
  })

  test('the same seed gives the same answer, another seed another', () => {
    const ask = (seed: number) =>
      redrawRobustness({ x, y, independentStandardUncertainty: 1, redraws: 300, seed })
    expect(ask(5)).toEqual(ask(5))
    expect(ask(5)).not.toEqual(ask(6))
  })

  test('one uncertainty each: only the doubtful value moves', () => {
    const own = x.map((_, k) => (k === 0 ? 100 : 0))
    const found = answered(redrawRobustness({ x, y, independentStandardUncertainty: own, redraws: 400 }))
    expect(found.highRho!).toBe(found.rho)
    expect(found.lowRho!).toBeLessThan(found.rho!)
  })

  test('a constant species is not defined; wrong questions are refused', () => {
    const constant = y.map(() => 0)
    expect(answered(redrawRobustness({ x, y: constant, independentStandardUncertainty: 1 }))).toMatchObject({
      rho: null,
      significantShare: null,
    })
    refusedWith(redrawRobustness({ x, y: [1], independentStandardUncertainty: 1 }), 'E_UNPAIRED')
    refusedWith(redrawRobustness({ x, y, independentStandardUncertainty: [1] }), 'E_UNPAIRED')
    refusedWith(redrawRobustness({ x, y, independentStandardUncertainty: -1 }), 'E_NEGATIVE')
    refusedWith(redrawRobustness({ x, y, independentStandardUncertainty: 1, redraws: 0 }), 'E_NOT_WHOLE')
    refusedWith(redrawRobustness({ x, y, independentStandardUncertainty: 1, redraws: 1e7 }), 'E_TOO_MANY')
    refusedWith(redrawRobustness({ x, y, independentStandardUncertainty: 1, level: 5 }), 'E_LEVEL')
  })
})

test('normalDraws: mean 0, variance 1, about 5 % beyond 1.96', () => {
  const draw = normalDraws(7)
  const drawn = Array.from({ length: 20_000 }, draw)
  const mean = drawn.reduce((sum, each) => sum + each, 0) / drawn.length
  const square = drawn.reduce((sum, each) => sum + each * each, 0) / drawn.length
  // four standard errors each: 1/√n, √2/√n, √(0.05·0.95/n)
  expect(Math.abs(mean)).toBeLessThan(0.0283)
  expect(Math.abs(square - 1)).toBeLessThan(0.04)
  expect(Math.abs(drawn.filter((each) => Math.abs(each) > 1.959964).length / 20_000 - 0.05)).toBeLessThan(
    0.0062,
  )
})
