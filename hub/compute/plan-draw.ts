import { z } from 'zod'
import { PlanRule } from '../contract/plan.ts'
import { Plot, Quadrat, Transect } from '../contract/survey.ts'
import { drawPlan } from '../survey/plan/draw-plan.ts'
import { planWarnings } from '../survey/plan/plan-warnings.ts'
import { defineComputation } from './computation.ts'
import { advice } from './fields.ts'

export const planDraw = defineComputation({
  name: 'plan-draw',
  title: 'Quadrats laid by rules: random, stratified, grid, along a tape, belt',
  source:
    'Blackman & Vigna 2021, ACM Trans. Math. Softw. 47(4), 36 (the numbers); the rules are common practice',
  units: {
    'transects.lengthMetres': 'm',
    'plots.widthMetres': 'm',
    'plots.heightMetres': 'm',
    'plan.sideMetres': 'm',
    'quadrats.xMetres': 'm, lower-left corner',
    'quadrats.yMetres': 'm, lower-left corner',
    'quadrats.distanceMetres': 'm from the zero mark',
  },
  input: z.object({
    transects: z.array(Transect).default([]),
    plots: z.array(Plot).default([]),
    plan: z.array(PlanRule).min(1),
  }),
  output: z.object({
    quadrats: z.array(Quadrat),
    faults: z.array(z.object({ path: z.string(), message: z.string() })),
    warnings: advice,
  }),
  run({ transects, plots, plan }) {
    const { drawn, faults } = drawPlan({ transects, plots }, plan)
    const quadrats = drawn.map(({ quadrat }) => quadrat)
    return { quadrats, faults, warnings: planWarnings(quadrats) }
  },
})
