import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { PlanRule } from '../../../../hub/contract/plan.ts'
import { Quadrat } from '../../../../hub/contract/survey.ts'
import { drawPlan } from '../../../../hub/survey/plan/draw-plan.ts'
import { findOverlap } from '../../../../hub/survey/plan/find-overlap.ts'

const ground = {
  transects: [{ id: 'T1', lengthMetres: 20, markSpacingMetres: 0.5, zones: [] }],
  plots: [{ id: 'P1', widthMetres: 10, heightMetres: 6 }],
}
const draw = (...rules: object[]) =>
  drawPlan(
    ground,
    rules.map((rule) => PlanRule.parse(rule)),
  )
const quadratsOf = (...rules: object[]) => draw(...rules).drawn.map(({ quadrat }) => quadrat)
const faultOf = (rule: object) => draw(rule).faults[0]
const random = { rule: 'random', plot: 'P1', count: 5, seed: 7 }

describe('along a tape', () => {
  it('lays 41 quadrats on 20 m, one every 0.5 m: both ends count', () => {
    // source: common practice, L/0.5 + 1 marks; 40 is the commonest slip
    const quadrats = quadratsOf({ rule: 'along', transect: 'T1', everyMetres: 0.5 })
    expect(quadrats).toHaveLength(41)
    expect(quadrats.at(-1)).toMatchObject({ label: 'Q41', distanceMetres: 20 })
  })
  it('reaches the end although 0.1 m is no binary fraction', () => {
    expect(quadratsOf({ rule: 'along', transect: 'T1', everyMetres: 0.1 })).toHaveLength(201)
  })
  it('ends where it is told to', () => {
    const rule = { rule: 'along', transect: 'T1', firstMetres: 1, everyMetres: 2, lastMetres: 7 }
    expect(quadratsOf(rule).map(({ distanceMetres }) => distanceMetres)).toEqual([1, 3, 5, 7])
  })
  it('names what is past the end, and a last one before the first', () => {
    const along = { rule: 'along', transect: 'T1', everyMetres: 2 }
    expect(faultOf({ ...along, firstMetres: 21 })).toEqual({
      path: 'plan[0].firstMetres',
      message: '21 m is past the end: the tape "T1" ends at 20 m',
    })
    expect(faultOf({ ...along, lastMetres: 20.5 })?.path).toBe('plan[0].lastMetres')
    expect(faultOf({ ...along, firstMetres: 5, lastMetres: 4 })?.path).toBe('plan[0].lastMetres')
    expect(faultOf({ ...along, firstMetres: 20 })).toBeUndefined()
  })
})

describe('a belt', () => {
  it('lays frames side by side across the tape, the middle one on it', () => {
    const belt = quadratsOf({ rule: 'belt', transect: 'T1', everyMetres: 10, sideBySide: 3 })
    expect(
      belt.map(({ label, distanceMetres, offsetMetres }) => [label, distanceMetres, offsetMetres]),
    ).toEqual(
      [0, 10, 20].flatMap((metres, station) => [
        [`Q${station + 1}a`, metres, -0.5],
        [`Q${station + 1}b`, metres, 0],
        [`Q${station + 1}c`, metres, 0.5],
      ]),
    )
  })
  it('is continuous when it goes on by the side of the frame, without overlap; closer is refused', () => {
    const belt = { rule: 'belt', transect: 'T1', sideMetres: 1, sideBySide: 2 }
    const continuous = quadratsOf({ ...belt, everyMetres: 1 })
    expect(continuous).toHaveLength(42)
    expect(findOverlap(continuous)).toBeNull()
    expect(faultOf({ ...belt, everyMetres: 0.9 })?.path).toBe('plan[0].everyMetres')
  })
})

describe('random in a plot', () => {
  it('draws this list for seed 7, for ever', () => {
    // worked out by this code when it was written: it pins the list, it does not prove it
    expect(quadratsOf(random).map(({ label, xMetres, yMetres }) => [label, xMetres, yMetres])).toEqual([
      ['Q1', 0, 5.5],
      ['Q2', 4.5, 4],
      ['Q3', 3.5, 4.5],
      ['Q4', 8.5, 1],
      ['Q5', 4, 4],
    ])
  })
  it('keeps every frame inside, on its own step, none twice, for any seed and size', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 2 ** 31 - 1 }),
        fc.constantFrom(0.1, 0.25, 0.3, 0.5, 1, 2),
        fc.integer({ min: 1, max: 15 }),
        (seed, sideMetres, count) => {
          const quadrats = quadratsOf({ ...random, seed, sideMetres, count })
          expect(quadrats).toHaveLength(count)
          expect(new Set(quadrats.map(({ xMetres, yMetres }) => `${xMetres} ${yMetres}`)).size).toBe(count)
          expect(findOverlap(quadrats)).toBeNull()
          for (const { xMetres, yMetres } of quadrats) {
            expect(xMetres! + sideMetres).toBeLessThanOrEqual(10 + 1e-9)
            expect(yMetres! + sideMetres).toBeLessThanOrEqual(6 + 1e-9)
            expect(Math.abs(xMetres! / sideMetres - Math.round(xMetres! / sideMetres))).toBeLessThan(1e-6)
          }
        },
      ),
      { seed: 1, numRuns: 200 },
    )
  })
  it('fills a plot to the last place, and says how many fit when more are asked for', () => {
    // 10 ÷ 2 times 6 ÷ 2
    expect(quadratsOf({ ...random, sideMetres: 2, count: 15 })).toHaveLength(15)
    expect(faultOf({ ...random, sideMetres: 2, count: 16 })).toEqual({
      path: 'plan[0].count',
      message: '16 quadrats of 2 m do not fit into plot "P1"; 15 do',
    })
  })
  it('refuses a frame larger than the plot: below, at and above its width', () => {
    expect(faultOf({ ...random, sideMetres: 5.9, count: 1 })).toBeUndefined()
    expect(faultOf({ ...random, sideMetres: 6, count: 1 })).toBeUndefined()
    expect(faultOf({ ...random, sideMetres: 6.1, count: 1 })).toEqual({
      path: 'plan[0].sideMetres',
      message: 'a frame of 6.1 m is larger than plot "P1" (10 m by 6 m)',
    })
  })
  it('draws the next place for a rejected one, and moves no other', () => {
    const before = quadratsOf(random)
    const { xMetres, yMetres } = before[2]!
    const rejected = [{ xMetres: xMetres!, yMetres: yMetres!, reason: 'path' }]
    const after = quadratsOf({ ...random, rejected })
    expect(after.map(({ label }) => label)).toEqual(before.map(({ label }) => label))
    expect(after.filter((_, index) => index !== 2)).toEqual(before.filter((_, index) => index !== 2))
    expect(after[2]).not.toEqual(before[2])
    // it is what the sixth draw would have given
    expect(after[2]).toMatchObject({
      xMetres: quadratsOf({ ...random, count: 6 })[5]!.xMetres,
      yMetres: quadratsOf({ ...random, count: 6 })[5]!.yMetres,
    })
  })
  it('says when no place is left', () => {
    const rejected = [{ xMetres: 0, yMetres: 0, reason: 'pond' }]
    expect(faultOf({ ...random, sideMetres: 6, count: 1, rejected })?.message).toBe(
      'no place is left in plot "P1": all are rejected',
    )
  })
})

describe('stratified', () => {
  const stratified = { rule: 'stratified', plot: 'P1', rows: 2, columns: 5, perPart: 3, seed: 3 }
  it('has the same number in each part', () => {
    const parts = new Map<string, number>()
    for (const { xMetres, yMetres } of quadratsOf(stratified)) {
      const part = `${Math.floor(xMetres! / 2)} ${Math.floor(yMetres! / 3)}`
      parts.set(part, (parts.get(part) ?? 0) + 1)
    }
    expect([...parts.values()]).toEqual(new Array(10).fill(3))
  })
  it('rejects in one part without touching the others', () => {
    const before = quadratsOf(stratified)
    const { xMetres, yMetres } = before[0]!
    const after = quadratsOf({
      ...stratified,
      rejected: [{ xMetres: xMetres!, yMetres: yMetres!, reason: 'nest' }],
    })
    expect(after.slice(1)).toEqual(before.slice(1))
    expect(after[0]).not.toEqual(before[0])
    expect(after[0]!.xMetres).toBeLessThan(2)
    expect(after[0]!.yMetres).toBeLessThan(3)
  })
  it('refuses parts smaller than the frame, and more than a part holds', () => {
    expect(faultOf({ ...stratified, sideMetres: 2.5 })?.path).toBe('plan[0].columns')
    expect(faultOf({ ...stratified, sideMetres: 1, perPart: 6 })).toBeUndefined()
    expect(faultOf({ ...stratified, sideMetres: 1, perPart: 7 })?.message).toBe(
      '7 quadrats of 1 m do not fit into one part; 6 do',
    )
  })
})

describe('a grid', () => {
  const grid = {
    rule: 'grid',
    plot: 'P1',
    firstXMetres: 0.5,
    firstYMetres: 0.5,
    stepXMetres: 3,
    stepYMetres: 2,
  }
  it('lays rows and columns as far as a whole frame fits', () => {
    expect(quadratsOf(grid).map(({ xMetres, yMetres }) => [xMetres, yMetres])).toEqual(
      [0.5, 2.5, 4.5].flatMap((y) => [0.5, 3.5, 6.5, 9.5].map((x) => [x, y])),
    )
  })
  it('refuses steps that overlap and a first frame outside', () => {
    expect(faultOf({ ...grid, stepXMetres: 0.4 })?.path).toBe('plan[0].stepXMetres')
    expect(faultOf({ ...grid, firstYMetres: 5.6 })?.path).toBe('plan[0].firstYMetres')
    expect(faultOf({ ...grid, firstYMetres: 5.5 })).toBeUndefined()
  })
})

describe('drawPlan', () => {
  it('refuses negative distances, also from a program that did not go through the schema', () => {
    const rule = { ...PlanRule.parse({ rule: 'along', transect: 'T1', everyMetres: 2 }), firstMetres: -1 }
    expect(drawPlan(ground, [rule as PlanRule]).faults).toEqual([
      {
        path: 'plan[0].firstMetres',
        message: '-1 m is negative; distances count from the zero mark or the corner',
      },
    ])
    expect(PlanRule.safeParse(rule).success).toBe(false)
  })
  it('refuses a label that two rules use', () => {
    const { drawn, faults } = draw(random, { rule: 'along', transect: 'T1', everyMetres: 10 })
    expect(drawn).toEqual([])
    expect(faults[0]).toMatchObject({ path: 'plan[1].prefix' })
    expect(faults[0]?.message).toContain('the label "Q1" is used twice')
    expect(draw(random, { rule: 'along', transect: 'T1', everyMetres: 10, prefix: 'R' }).faults).toEqual([])
  })
  it('refuses a tape or plot that is not there, and more quadrats than a survey may have', () => {
    expect(faultOf({ ...random, plot: 'P9' })).toEqual({
      path: 'plan[0].plot',
      message: 'there is no plot "P9"',
    })
    expect(faultOf({ rule: 'along', transect: 'T1', everyMetres: 0.001 })?.path).toBe('plan[0].rule')
  })
  it('makes quadrats that the survey file takes', () => {
    const quadrats = quadratsOf(random, {
      rule: 'belt',
      transect: 'T1',
      everyMetres: 5,
      prefix: 'B',
      gridDivisions: 5,
    })
    for (const quadrat of quadrats) expect(Quadrat.parse(quadrat)).toEqual(quadrat)
    expect(quadrats.at(-1)?.gridDivisions).toBe(5)
  })
})
