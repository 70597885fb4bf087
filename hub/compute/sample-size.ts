import { z } from 'zod'
import { sampleSize } from '../study/statistics/sample-size.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const sampleSizeComputation = defineComputation({
  name: 'sample-size',
  title: 'How many quadrats a mean needs for a given precision',
  source: 'Southwood & Henderson 2000, Ecological Methods, 3rd ed., §2.1.3',
  units: {
    x: 'any, counted so far',
    precision: 'share of the mean, ±',
    level: '0–1, 0.95 when not given',
    precisionSoFar: 'share of the mean, ±',
    needed: 'quadrats',
    more: 'quadrats',
  },
  input: z.object({ x: z.array(number), precision: number, level: number.optional() }),
  output: z.object({ n: number, precisionSoFar: number, needed: number, more: number, level: number }),
  run: ({ x, precision, level }) => sampleSize(x, precision, level),
})
