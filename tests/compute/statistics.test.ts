import { describe, expect, test } from 'vitest'
import { isRefusal } from '../../calibration/index.ts'
import { COMPUTATIONS, runComputation } from '../../hub/compute/index.ts'

/** The answer, having gone through JSON on the way in and out; fails on a refusal or an output off its schema. */
function compute(name: string, input: unknown): unknown {
  const answer = runComputation(name, JSON.parse(JSON.stringify(input)))
  if (isRefusal(answer)) throw new Error(`${answer.code}: ${answer.message}`)
  const { output } = COMPUTATIONS.find((each) => each.name === name)!
  const through = JSON.parse(JSON.stringify(answer))
  expect(output.safeParse(through).error).toBeUndefined()
  return through
}

const LIGHT = [3, 5, 8, 12, 20, 33, 47, 60, 78, 95]
const GRASS = [2, 0, 5, 5, 12, 30, 25, 60, 55, 80]

describe('each statistic over JSON answers with its published or defined figure', () => {
  // sources stand beside the same figures in tests/hub/study/statistics
  test.each<[name: string, input: unknown, output: Record<string, unknown>]>([
    [
      'spearman',
      { x: LIGHT, y: GRASS },
      { rho: expect.closeTo(0.9605, 4), n: 10, critical: 0.648, shortCut: expect.closeTo(0.9606, 4) },
    ],
    [
      'spearman',
      { x: [1, 2, 3, 4], y: [2, 4, 6, 8] },
      {
        rho: 1,
        p: expect.closeTo(1 / 12, 12),
        method: 'exact permutation',
        critical: null,
        low: null,
        high: null,
      },
    ],
    ['spearman', { x: [5, 5, 5], y: [1, 2, 3] }, { rho: null, p: null, n: 3, low: null }],
    [
      'pearson',
      { x: [1, 2, 3, 4, 5, 6, 7, 8], y: [2, 1, 4, 3, 7, 8, 6, 9] },
      {
        r: expect.closeTo(0.896421457, 9),
        p: expect.closeTo(0.0025667661, 10),
        n: 8,
        low: expect.closeTo(0.5206086453, 9),
      },
    ],
    ['pearson', { x: [5, 5, 5], y: [1, 2, 3] }, { r: null, p: null, n: 3, low: null, high: null }],
    [
      'diversity',
      { counts: [12, 7, 4, 1, 1] },
      { richness: 5, simpson: expect.closeTo(0.69, 12), shannon: expect.closeTo(1.259459, 6) },
    ],
    [
      'diversity',
      { cover: [12, 7, 4, 1, 1] },
      { simpson: expect.closeTo(0.6624, 12), simpsonForm: '1 − Σp²' },
    ],
    [
      'describe',
      { x: [10000001, 10000003, 10000002] },
      { n: 3, mean: 10000002, standardDeviation: 1, median: 10000002, autocorrelationLag1: -0.5 },
    ],
    ['describe', { x: [5] }, { n: 1, mean: 5, standardDeviation: null, autocorrelationLag1: null }],
    // t(0.975, 2) = 4.302653, mean 2, s/√n = 1/√3
    [
      'student-interval',
      { x: [1, 2, 3], level: 0.95 },
      {
        low: expect.closeTo(2 - 4.302653 / Math.sqrt(3), 6),
        high: expect.closeTo(2 + 4.302653 / Math.sqrt(3), 6),
      },
    ],
    ['student-interval', { x: [1, 2, 3] }, { level: 0.95, mean: 2 }],
    [
      'mean-uncertainty',
      { x: [5.48, 5.6, 5.72], commonStandardUncertainty: 0.0384 },
      {
        standardUncertainty: expect.closeTo(0.079, 3),
        degreesOfFreedom: expect.closeTo(3.4, 1),
        expandedUncertainty: expect.closeTo(0.24, 2),
      },
    ],
    [
      'mean-uncertainty',
      { x: [5.6], commonStandardUncertainty: 0.03, commonDegreesOfFreedom: null },
      { samplingStandardUncertainty: null, degreesOfFreedom: null },
    ],
    [
      'mann-whitney',
      { x: [0.8, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46], y: [1.15, 0.88, 0.9, 0.74, 1.21] },
      { u1: 35, u: 15, p: expect.closeTo(0.2544122544, 10) },
    ],
    [
      'kruskal-wallis',
      {
        groups: [
          [2.9, 3, 2.5, 2.6, 3.2],
          [3.8, 2.7, 4, 2.4],
          [2.8, 3.4, 3.7, 2.2, 2],
        ],
      },
      { h: expect.closeTo(0.7714285714, 10), p: expect.closeTo(0.67996477, 8) },
    ],
    [
      'two-species',
      { both: 3, firstOnly: 1, secondOnly: 1, neither: 3 },
      { pFisher: expect.closeTo(34 / 70, 12), isExpectedTooSmall: true },
    ],
    [
      'frequency',
      { cover: [12, 0, 0.5, 35, null, 4, 0, 20, 8, 0] },
      { percentFrequency: expect.closeTo(66.7, 1), meanCoverPercent: expect.closeTo(8.83, 2) },
    ],
    [
      'holm',
      { p: [0.01, 0.04, 0.03, 0.005] },
      { testCount: 4, expectedFalseAlarms: expect.closeTo(0.2, 12) },
    ],
    [
      'pca',
      { factors: { light: [1, 2, 4, 8], temperature: [2, 4, 8, 16] } },
      {
        n: 4,
        components: expect.arrayContaining([expect.objectContaining({ eigenvalue: expect.closeTo(2, 10) })]),
      },
    ],
    [
      'running-mean',
      { x: [10, 20, 0, 10, 10] },
      { means: [10, 15, 10, 10, 10], isSettled: true, settledAt: 3 },
    ],
    ['sample-size', { x: [12, 5, 8, 20, 15, 3], precision: 0.15 }, { needed: 67, more: 61 }],
    [
      'redraw-robustness',
      { x: LIGHT, y: GRASS, independentStandardUncertainty: 0, redraws: 20 },
      { significantShare: 1, redraws: 20 },
    ],
    ['circular-mean', { times: ['23:50', '00:10'] }, { time: '00:00:00', secondsOfDay: 0, n: 2 }],
    ['circular-mean', { times: ['06:00', '18:00:00'] }, { time: null, secondsOfDay: null }],
    // 86 399.7 s rounds up to the next midnight, not to 24:00:00
    ['circular-mean', { times: ['23:59:59.7'] }, { time: '00:00:00' }],
  ])('%s %j', (name, input, output) => {
    expect(compute(name, input)).toMatchObject(output)
  })
})

describe('wrong input is refused with its place, or with what to do', () => {
  test.each<[name: string, input: unknown, code: string, words: string]>([
    ['spearman', { x: [1, 2], y: [1] }, 'E_UNPAIRED', 'each x needs its own y'],
    ['spearman', { x: [], y: [] }, 'E_TOO_FEW', '“x” has 0'],
    ['spearman', { x: ['3', 2], y: [1, 2] }, 'E_INPUT', '“x.0”'],
    ['spearman', { x: [1, 2] }, 'E_INPUT', '“y”'],
    ['pearson', { x: [1, null], y: [1, 2] }, 'E_INPUT', '“x.1”'],
    ['describe', { x: [] }, 'E_TOO_FEW', 'Measure more'],
    ['describe', { x: 'text' }, 'E_INPUT', '“x”'],
    ['student-interval', { x: [5] }, 'E_TOO_FEW', 'at least 2 values'],
    ['student-interval', { x: [5, 6], level: 95 }, 'E_LEVEL', '0.95'],
    ['diversity', {}, 'E_TOO_FEW', 'counts'],
    ['diversity', { counts: [1], cover: [1] }, 'E_UNPAIRED', 'not both'],
    ['diversity', { counts: [1.5] }, 'E_NOT_WHOLE', 'cover'],
    ['diversity', { counts: [-1] }, 'E_NEGATIVE', '-1'],
    ['mean-uncertainty', { x: [5.6] }, 'E_TOO_FEW', 'Measure again'],
    [
      'mean-uncertainty',
      { x: [5.6, 5.7], commonStandardUncertainty: -0.1 },
      'E_INPUT',
      'commonStandardUncertainty',
    ],
    ['pca', { factors: { light: [1, 2, 3], pH: [5, 5, 5] } }, 'E_CONSTANT', 'pH'],
    ['sample-size', { x: [12, 5, 8], precision: 1e-5 }, 'E_TOO_MANY', 'less precision'],
    ['circular-mean', { times: ['25:00'] }, 'E_INPUT', 'a time of day is written 09:30'],
    [
      'redraw-robustness',
      { x: [1, 2], y: [1, 2], independentStandardUncertainty: [1] },
      'E_UNPAIRED',
      '1 uncertainties',
    ],
  ])('%s %j: %s', (name, input, code, words) => {
    const answer = runComputation(name, input)
    if (!isRefusal(answer)) throw new Error(`answered ${JSON.stringify(answer)}`)
    expect(answer.code).toBe(code)
    expect(answer.message).toContain(words)
  })
})
