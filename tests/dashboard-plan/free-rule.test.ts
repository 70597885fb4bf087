import { describe, expect, it } from 'vitest'
import { readGround } from '../../dashboard/plan/drawing/read-ground.ts'
import { freeRule } from '../../dashboard/plan/form/free-rule.ts'
import {
  freshPlan,
  freshPlot,
  freshRule,
  freshTape,
  type PlanForm,
} from '../../dashboard/plan/form/plan-form.ts'
import { readPlanForm } from '../../dashboard/plan/form/read-plan-form.ts'
import { drawPlan } from '../../hub/survey/plan/draw-plan.ts'
import { findOverlap } from '../../hub/survey/plan/find-overlap.ts'

/** What the hub lays by a form. */
function laidBy(form: PlanForm) {
  const { parts } = readPlanForm(form)
  const { drawn, faults } = drawPlan(
    { transects: parts.transects, plots: parts.plots ?? [] },
    parts.plan ?? [],
  )
  expect(faults).toEqual([])
  return drawn.map(({ quadrat }) => quadrat)
}

/** The form after “Add a rule”. */
function withFreeRule(form: PlanForm): PlanForm {
  const prefix = ['Q', 'R', 'S', 'U', 'V', 'W'][form.plan.length]!
  return { ...form, plan: [...form.plan, { ...freeRule(readGround(form), laidBy(form), 7), prefix }] }
}

const onTape: PlanForm = freshPlan('Europe/Vienna', '2026-06-12', 7)
const inPlot: PlanForm = {
  ...onTape,
  transects: [],
  plots: [freshPlot('P1')],
  plan: [freshRule('random', 7)],
}

describe('a further rule', () => {
  it('lays its quadrats half-way between those of the first on a tape', () => {
    const form = withFreeRule(onTape)
    expect(form.plan[1]).toMatchObject({ rule: 'along', transect: 'T1', firstMetres: '2' })
    expect(findOverlap(laidBy(form))).toBeNull()
  })
  it('finds room again and again, as long as there is some', () => {
    let form = onTape
    for (let more = 0; more < 3; more++) {
      form = withFreeRule(form)
      expect(findOverlap(laidBy(form))).toBeNull()
    }
    expect(new Set(form.plan.map(({ firstMetres }) => firstMetres)).size).toBe(4)
  })
  it('goes to another tape when the first is full, and to a plot when all are', () => {
    const full = { ...freshRule('along', 7), everyMetres: '0.5' }
    const two = { ...onTape, transects: [freshTape('T1'), freshTape('T2')], plan: [full] }
    expect(withFreeRule(two).plan[1]).toMatchObject({ rule: 'along', transect: 'T2', firstMetres: '1' })
    const withPlot = { ...onTape, plots: [freshPlot('P1')], plan: [{ ...full, firstMetres: '0' }] }
    expect(withFreeRule(withPlot).plan[1]).toMatchObject({ rule: 'grid', plot: 'P1' })
  })
  it('keeps clear of quadrats drawn at random, in plots of any seed', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const form = withFreeRule({ ...inPlot, plan: [freshRule('random', seed)] })
      expect(form.plan[1]?.rule).toBe('grid')
      expect(findOverlap(laidBy(form))).toBeNull()
    }
  })
  it('is as usual where there is no room: the hub warns', () => {
    const full = { ...freshRule('along', 7), everyMetres: '0.5', firstMetres: '0' }
    expect(withFreeRule({ ...onTape, plan: [full] }).plan[1]).toMatchObject({
      rule: 'along',
      transect: 'T1',
      firstMetres: '1',
    })
  })
})
