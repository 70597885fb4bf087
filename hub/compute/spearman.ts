import { z } from 'zod'
import { spearmanInterval } from '../study/statistics/correlation-interval.ts'
import { spearman } from '../study/statistics/spearman.ts'
import { criticalSpearman } from '../study/statistics/spearman-critical.ts'
import { answer, defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const spearmanComputation = defineComputation({
  name: 'spearman',
  title: 'Rank correlation of two lists, right with ties, with its two-tailed p',
  source:
    'Spearman 1904, Am. J. Psychol. 15, 72–101; interval: Bonett & Wright 2000, Psychometrika 65, 23–28',
  units: {
    x: 'any',
    y: 'any',
    rho: '1; null: not defined',
    p: '0–1, two-tailed; null: not defined',
    critical: '1, at 0.05 two-tailed without ties; null: never significant',
    low: '1, at 95 %; null: cannot be judged',
    high: '1',
    shortCut: '1, by 1 − 6Σd²/(n³ − n), right only without ties',
  },
  input: z.object({ x: z.array(number), y: z.array(number) }),
  output: z.object({
    rho: number.nullable(),
    p: number.nullable(),
    n: number,
    method: z.string(),
    critical: number.nullable(),
    low: number.nullable(),
    high: number.nullable(),
    hasTies: z.boolean(),
    sumOfSquaredDifferences: number,
    shortCut: number.nullable(),
  }),
  run: ({ x, y }) =>
    answer(spearman(x, y), (found) => {
      const interval = found.rho === null ? null : spearmanInterval(found.rho, found.n)
      return {
        ...found,
        critical: criticalSpearman(found.n),
        low: interval?.low ?? null,
        high: interval?.high ?? null,
      }
    }),
})
