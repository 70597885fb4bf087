import { z } from 'zod'
import { pearsonInterval } from '../study/statistics/correlation-interval.ts'
import { pearson } from '../study/statistics/pearson.ts'
import { answer, defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const pearsonComputation = defineComputation({
  name: 'pearson',
  title: 'Correlation along a straight line, with its two-tailed p',
  source: 'Pearson 1896, Phil. Trans. R. Soc. A 187, 253–318; interval: Fisher 1921, Metron 1(4), 3–32',
  units: {
    x: 'any measured scale',
    y: 'any measured scale',
    r: '1; null: not defined',
    p: '0–1, two-tailed; null: not defined',
    low: '1, at 95 %; null: cannot be judged',
    high: '1',
  },
  input: z.object({ x: z.array(number), y: z.array(number) }),
  output: z.object({
    r: number.nullable(),
    p: number.nullable(),
    n: number,
    low: number.nullable(),
    high: number.nullable(),
  }),
  run: ({ x, y }) =>
    answer(pearson(x, y), (found) => {
      const interval = found.r === null ? null : pearsonInterval(found.r, found.n)
      return { ...found, low: interval?.low ?? null, high: interval?.high ?? null }
    }),
})
