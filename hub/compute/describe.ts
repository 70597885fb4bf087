import { z } from 'zod'
import { describeValues } from '../study/statistics/describe.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const describe = defineComputation({
  name: 'describe',
  title: 'Mean, spread, quartiles and likeness of neighbours of a list of numbers',
  source:
    'NIST/ITL StRD, univariate; Chan, Golub & LeVeque 1983, Am. Stat. 37, 242–247; quartiles: Hyndman & Fan 1996, definition 7',
  units: {
    x: 'any',
    standardDeviation: 'that of x, n − 1; null: one value has no spread',
    standardError: 'that of x, s/√n',
    autocorrelationLag1: '1; null: nothing varies',
  },
  input: z.object({ x: z.array(number) }),
  output: z.object({
    n: number,
    mean: number,
    standardDeviation: number.nullable(),
    standardError: number.nullable(),
    median: number,
    lowerQuartile: number,
    upperQuartile: number,
    minimum: number,
    maximum: number,
    autocorrelationLag1: number.nullable(),
  }),
  run: ({ x }) => describeValues(x),
})
