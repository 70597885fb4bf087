import { expect, test } from 'vitest'
import type { QuadratSummary, StudySummary } from '../../../hub/contract/study.ts'
import { factorsOf } from '../../../hub/study/factors.ts'
import { readingsForJoin } from '../../../hub/study/study-join.ts'

const of = (more: Partial<QuadratSummary>): QuadratSummary => ({
  quadrat: 'Q1',
  quantity: 'soil_ph',
  method: { way: 'direct', depthCentimetres: 5 },
  unit: 'pH',
  kind: 'logged',
  probes: ['PH-1'],
  calibrations: ['c1'],
  n: 700,
  received: 700,
  effectiveN: 20,
  from: '2026-06-12T09:00:00.000Z',
  to: '2026-06-12T10:00:00.000Z',
  mean: 5.56,
  median: 5.56,
  standardDeviation: 0.1,
  standardError: 0.02,
  low: 5.4,
  high: 5.7,
  lowerQuartile: 5.5,
  upperQuartile: 5.6,
  value: 5.56,
  statistic: 'median',
  samplingUncertainty: 0.02,
  probeUncertainty: 0.04,
  methodUncertainty: 0.15,
  expanded: 0.3,
  degreesOfFreedom: 40,
  hydrogenIonMean: null,
  days: [],
  openSkyPercent: null,
  gust: null,
  calmPercent: null,
  differenceFromFixed: null,
  ...more,
})

const study = (...summaries: QuadratSummary[]): StudySummary => ({
  quadrats: ['Q1', 'Q2'].map((label) => ({ label, zone: null, distanceMetres: null, place: '' })),
  summaries,
  cautions: [],
  window: null,
})

// common practice, no source: three insertions do not stand for, nor in place of, what a probe logged there
test('a carried meter’s replicates never take the place of what was logged at the same quadrat', () => {
  const both = study(
    of({}),
    of({ kind: 'spot', n: 3, received: 3, value: 5.38 }),
    of({ quadrat: 'Q2', value: 6 }),
  )
  const factors = factorsOf(both)
  expect(factors.map(({ name, values }) => [name, [...values.keys()]])).toEqual([
    ['Soil pH, direct, 5 cm deep, logged', ['Q1', 'Q2']],
    ['Soil pH, direct, 5 cm deep, spot readings', ['Q1']],
  ])
  expect(factors[0]!.values.get('Q1')!.value).toBe(5.56)
  const methods = readingsForJoin(both).values.map(({ quadrat, method, n }) => [quadrat, method, n])
  expect(methods).toContainEqual(['Q1', 'direct, 5 cm deep, spot readings', 3])
  expect(methods).toContainEqual(['Q1', 'direct, 5 cm deep, logged', 700])
})

test('where only one of them was done, nothing is added to the name', () => {
  expect(factorsOf(study(of({}))).map(({ name }) => name)).toEqual(['Soil pH'])
})
