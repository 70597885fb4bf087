import { z } from 'zod'
import { mannWhitney } from '../study/statistics/mann-whitney.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const mannWhitneyComputation = defineComputation({
  name: 'mann-whitney',
  title: 'Whether the values of one area tend to be greater than those of another',
  source: 'Mann & Whitney 1947, Ann. Math. Stat. 18, 50–60',
  units: {
    x: 'any, one area',
    y: 'that of x, the other area',
    u: 'pairs',
    p: '0–1, two-tailed; null: not defined',
  },
  input: z.object({ x: z.array(number), y: z.array(number) }),
  output: z.object({
    u1: number,
    u2: number,
    u: number,
    p: number.nullable(),
    n1: number,
    n2: number,
    median1: number,
    median2: number,
    method: z.string(),
  }),
  run: ({ x, y }) => mannWhitney(x, y),
})
