import { z } from 'zod'
import { meanInterval } from '../study/statistics/mean-interval.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const studentInterval = defineComputation({
  name: 'student-interval',
  title: 'Interval of a mean from the scatter of its values',
  source: 'Student 1908, Biometrika 6, 1–25; JCGM 100:2008 G.3.2',
  units: {
    x: 'any',
    level: '0–1, 0.95 when not given',
    mean: 'that of x',
    low: 'that of x',
    high: 'that of x',
  },
  input: z.object({ x: z.array(number), level: number.optional() }),
  output: z.object({
    low: number,
    high: number,
    mean: number,
    n: number,
    standardError: number,
    level: number,
  }),
  run: ({ x, level }) => meanInterval(x, level),
})
