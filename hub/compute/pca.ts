import { z } from 'zod'
import { principalComponents } from '../study/statistics/principal-components.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const pca = defineComputation({
  name: 'pca',
  title: 'Principal components of standardised factors: which factors change together',
  source:
    'Jolliffe 2002, Principal Component Analysis, 2nd ed., §2.3; Golub & Van Loan 2013, Matrix Computations, §8.5',
  units: {
    factors: 'any, by name, one value a quadrat',
    'components.eigenvalue': 'variances of one standardised factor',
    'components.shareOfVariance': '0–1',
    'components.loadings': '1, correlation of factor and scores; the greatest in size is positive',
    'components.scores': 'standard deviations of one factor',
  },
  input: z.object({ factors: z.record(z.string(), z.array(number)) }),
  output: z.object({
    n: number,
    components: z.array(
      z.object({
        eigenvalue: number,
        shareOfVariance: number,
        loadings: z.array(z.object({ name: z.string(), loading: number })),
        scores: z.array(number),
      }),
    ),
  }),
  run: ({ factors }) =>
    principalComponents(Object.entries(factors).map(([name, values]) => ({ name, values }))),
})
