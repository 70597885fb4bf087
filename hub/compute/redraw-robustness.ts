import { z } from 'zod'
import { redrawRobustness } from '../study/statistics/redraw-robustness.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const redrawRobustnessComputation = defineComputation({
  name: 'redraw-robustness',
  title: 'How often a rank correlation stays significant when x is drawn anew within its uncertainty',
  source: 'JCGM 101:2008 §5.9–7 (Monte Carlo method)',
  units: {
    x: 'any, the measured factor',
    y: 'any, the species',
    independentStandardUncertainty: 'that of x, k = 1: one for all, or one each',
    sharedStandardUncertainty: 'that of x, k = 1, common to all; it cannot change their order',
    redraws: '1000 when not given',
    seed: 'whole; the same seed gives the same answer; 1 when not given',
    level: '0–1, 0.05 when not given',
    significantShare: '0–1; null: not defined',
  },
  input: z.object({
    x: z.array(number),
    y: z.array(number),
    independentStandardUncertainty: z.union([number, z.array(number)]),
    sharedStandardUncertainty: number.default(0),
    redraws: number.default(1000),
    seed: number.int().default(1),
    level: number.default(0.05),
  }),
  output: z.object({
    rho: number.nullable(),
    p: number.nullable(),
    redraws: number,
    significantShare: number.nullable(),
    medianRho: number.nullable(),
    lowRho: number.nullable(),
    highRho: number.nullable(),
  }),
  run: (question) => redrawRobustness(question),
})
