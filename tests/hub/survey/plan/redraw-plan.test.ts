import { describe, expect, it } from 'vitest'
import { PlanRule } from '../../../../hub/contract/plan.ts'
import { type PlanLaid, redrawPlan } from '../../../../hub/survey/plan/redraw-plan.ts'

const laid = (rule: object): PlanLaid => ({
  transects: [{ id: 'T1', lengthMetres: 20, markSpacingMetres: 0.5, zones: [] }],
  plots: [{ id: 'P1', widthMetres: 10, heightMetres: 10 }],
  plan: [PlanRule.parse(rule)],
})
const nothing: PlanLaid = { transects: [], plots: [], plan: [] }
const every = (everyMetres: number) => laid({ rule: 'along', transect: 'T1', everyMetres })
const listOf = (before: PlanLaid, after: PlanLaid, quadrats: Parameters<typeof redrawPlan>[2]) =>
  redrawPlan(before, after, quadrats).drawn.map(({ quadrat }) => quadrat)

describe('redrawPlan', () => {
  const first = listOf(nothing, every(5), [])
  it('lays a new plan', () => {
    expect(first.map(({ distanceMetres }) => distanceMetres)).toEqual([0, 5, 10, 15, 20])
  })
  it('lets untouched quadrats follow a changed rule, and comes back when the rule does', () => {
    const wider = listOf(every(5), every(10), first)
    expect(wider.map(({ label, distanceMetres }) => [label, distanceMetres])).toEqual([
      ['Q1', 0],
      ['Q2', 10],
      ['Q3', 20],
    ])
    expect(listOf(every(10), every(5), wider)).toEqual(first)
  })
  it('keeps one that was changed by hand, whether the rule still lays its label or not', () => {
    const moved = first.map((each) => (each.label === 'Q4' ? { ...each, distanceMetres: 14.5 } : each))
    expect(listOf(every(5), every(4), moved).find(({ label }) => label === 'Q4')?.distanceMetres).toBe(14.5)
    const answer = redrawPlan(every(5), every(10), moved)
    expect(answer.drawn.at(-1)).toMatchObject({ quadrat: { label: 'Q4', distanceMetres: 14.5 }, rule: null })
  })
  it('leaves out what was taken out by hand, and what was relabelled is not laid again', () => {
    const some = first.filter(({ label }) => label !== 'Q2')
    expect(listOf(every(5), every(5), some)).toEqual(some)
    const renamed = first.map((each) => (each.label === 'Q2' ? { ...each, label: 'hedge' } : each))
    expect(listOf(every(5), every(5), renamed).map(({ label }) => label)).toEqual([
      'Q1',
      'Q3',
      'Q4',
      'Q5',
      'hedge',
    ])
  })
  it('draws the next place when one is rejected, under the same label', () => {
    const random = { rule: 'random', plot: 'P1', count: 4, seed: 2 }
    const drawn = listOf(nothing, laid(random), [])
    const { xMetres, yMetres } = drawn[1]!
    const after = laid({ ...random, rejected: [{ xMetres, yMetres, reason: 'path' }] })
    const next = listOf(
      laid(random),
      after,
      drawn.filter(({ label }) => label !== 'Q2'),
    )
    expect(next.map(({ label }) => label)).toEqual(['Q1', 'Q2', 'Q3', 'Q4'])
    expect(next[1]).not.toEqual(drawn[1])
    expect(next.filter((_, index) => index !== 1)).toEqual(drawn.filter((_, index) => index !== 1))
  })
  it('keeps quadrats of a survey that has no rules', () => {
    const byHand = first.slice(0, 2)
    expect(listOf({ ...every(5), plan: [] }, { ...every(5), plan: [] }, byHand)).toEqual(byHand)
  })
  it('lays nothing when something is wrong', () => {
    const { drawn, faults } = redrawPlan(
      every(5),
      laid({ rule: 'along', transect: 'T9', everyMetres: 5 }),
      first,
    )
    expect(drawn).toEqual([])
    expect(faults).toHaveLength(1)
  })
})
