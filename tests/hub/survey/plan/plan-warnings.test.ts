import { describe, expect, it } from 'vitest'
import type { Quadrat } from '../../../../hub/contract/survey.ts'
import { confusableLabels } from '../../../../hub/survey/plan/confusable-labels.ts'
import { findOverlap } from '../../../../hub/survey/plan/find-overlap.ts'
import { howManyAreEnough } from '../../../../hub/survey/plan/how-many.ts'
import { planWarnings, zoneFaults } from '../../../../hub/survey/plan/plan-warnings.ts'

const square = (label: string, xMetres: number, yMetres: number, sideMetres = 1): Quadrat => ({
  label,
  plot: 'P1',
  xMetres,
  yMetres,
  sideMetres,
  gridDivisions: 10,
})
const row = (count: number) => Array.from({ length: count }, (_, index) => square(`R${index}x`, index * 2, 0))
const tape = (count: number, sideBySide: number): Quadrat[] =>
  Array.from({ length: count }, (_, index) => ({
    label: `T${index}x`,
    transect: 'T1',
    distanceMetres: Math.floor(index / sideBySide) * 2,
    offsetMetres: (index % sideBySide) * 0.5,
    sideMetres: 0.5,
    gridDivisions: 10,
  }))

describe('planWarnings', () => {
  // common practice, no source: 10 an area, 10 pairs, 8 the floor, 5 needs a perfect order
  it.each([
    [4, /no result could be significant/],
    [5, /only a perfect order is significant/],
    [7, /only a perfect order is significant/],
    [8, /enough to run a rank correlation/],
    [9, /enough to run a rank correlation/],
  ])('says what %i quadrats are good for', (count, words) => {
    expect(planWarnings(row(count)).join(' ')).toMatch(words)
    expect(planWarnings(row(count)).join(' ')).toContain('plan 10 or more in each')
  })
  it('has nothing to say about ten quadrats in a plot, nor about none', () => {
    expect(planWarnings(row(10))).toEqual([])
    expect(planWarnings([])).toEqual([])
  })
  it('calls one quadrat a station weak, and three not', () => {
    expect(planWarnings(tape(12, 1)).join(' ')).toContain('One quadrat at each station is weak')
    expect(planWarnings(tape(12, 3))).toEqual([])
  })
  it('names two that overlap', () => {
    expect(planWarnings([...row(10), square('X', 0.5, 0.5)]).join(' ')).toMatch(
      /(R0x and X|X and R0x) overlap/,
    )
  })
})

describe('findOverlap', () => {
  it('lets edges and corners touch, and finds a centimetre of common ground', () => {
    expect(findOverlap([square('A', 0, 0), square('B', 1, 0), square('C', 1, 1)])).toBeNull()
    expect(findOverlap([square('A', 0, 0), square('B', 0.99, 0.99)])?.map(({ label }) => label)).toEqual([
      'A',
      'B',
    ])
    expect(findOverlap([square('A', 0, 0), { ...square('B', 0, 0), plot: 'P2' }])).toBeNull()
    expect(findOverlap([])).toBeNull()
  })
})

describe('confusableLabels', () => {
  it('tells of 6 and 9, and of 16 and 91, only when both are there', () => {
    expect(confusableLabels(['Q6', 'Q9'])[0]).toContain('Q6 and Q9 look alike upside down')
    expect(confusableLabels(['Q16', 'Q91'])[0]).toContain('Q16 and Q91')
    expect(confusableLabels(['Q6', 'Q7'])).toEqual([])
    expect(confusableLabels(['Q26', 'Q92'])).toEqual([])
  })
  it('tells of O and 0, of I, l and 1, of capitals and spaces', () => {
    for (const pair of [
      ['QO', 'Q0'],
      ['Ql', 'Q1'],
      ['q1', 'Q1'],
      ['Q 1', 'Q1'],
    ])
      expect(confusableLabels(pair)[0]).toContain('easily taken for one another')
  })
})

describe('zoneFaults', () => {
  const zones = (fromMetres: number, toMetres: number) =>
    zoneFaults([
      {
        id: 'T1',
        lengthMetres: 20,
        markSpacingMetres: 0.5,
        zones: [{ name: 'shade', fromMetres, toMetres }],
      },
    ]).map(({ path }) => path)
  it('takes zones that end with the tape, and no longer ones or empty ones', () => {
    expect(zones(0, 20)).toEqual([])
    expect(zones(0, 20.1)).toEqual(['transects[0].zones[0]'])
    expect(zones(5, 5)).toEqual(['transects[0].zones[0]'])
  })
})

describe('howManyAreEnough', () => {
  it('says from when on the mean is settled, and how many a wished precision needs', () => {
    // running means of 10 12 8 10 10 10: 10 11 10 10 10 10, so from the third on all lie within ±5 % of 10
    const answer = howManyAreEnough({ values: [10, 12, 8, 10, 10, 10], relativeHalfWidth: 0.1 })
    expect(answer.steps.map(({ mean }) => mean)).toEqual([10, 11, 10, 10, 10, 10])
    expect(answer.steps[0]?.standardError).toBeNull()
    // s of 10 and 12 is √2, √2/√2 = 1
    expect(answer.steps[1]?.standardError).toBeCloseTo(1, 12)
    expect(answer.settledAt).toBe(3)
    expect(answer.sentence).toContain('From 3 quadrats on')
    // n ≥ (t·s/(p·x̄))², s² = 8/5: n = 9 gives (2.306·1.265/1)² = 8.51 ≤ 9, n = 8 gives (2.365·1.265)² = 8.95 > 8;
    // t from tests/reference/stats-t-critical.csv
    expect(answer.needed).toBe(9)
    expect(answer.sentence).toContain('plan 9 quadrats in all: 3 more')
  })
  it('does not pretend with too few values, all the same, or a mean of nothing', () => {
    expect(howManyAreEnough({ values: [], relativeHalfWidth: 0.1 })).toMatchObject({
      steps: [],
      settledAt: null,
    })
    expect(howManyAreEnough({ values: [5], relativeHalfWidth: 0.1 })).toMatchObject({
      settledAt: null,
      needed: null,
    })
    expect(howManyAreEnough({ values: [1, -1, 0], relativeHalfWidth: 0.1 }).needed).toBeNull()
    expect(howManyAreEnough({ values: [5, 5, 5], relativeHalfWidth: 0.1 })).toMatchObject({ settledAt: 1 })
  })
})
