import { z } from 'zod'
import { runningMean } from '../study/statistics/running-mean.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const runningMeanComputation = defineComputation({
  name: 'running-mean',
  title: 'Mean after each further quadrat, and whether it has settled',
  source: 'common practice, no source: the last three running means within ±5 % of the final one',
  units: {
    x: 'any, in the order counted',
    tolerance: 'share of the final mean, 0.05 when not given',
    settledAt: 'quadrats; null: not settled',
  },
  input: z.object({ x: z.array(number), tolerance: number.optional() }),
  output: z.object({
    means: z.array(number),
    isSettled: z.boolean().nullable(),
    settledAt: number.nullable(),
    tolerance: number,
  }),
  run: ({ x, tolerance }) => runningMean(x, tolerance),
})
