import { z } from 'zod'
import { meanUncertainty } from '../study/statistics/mean-uncertainty.ts'
import { answer, defineComputation, finiteOrNull } from './computation.ts'
import { number } from './fields.ts'

export const meanUncertaintyComputation = defineComputation({
  name: 'mean-uncertainty',
  title: 'Interval of a mean from the spread of replicates and the uncertainty of the instrument',
  source: 'JCGM 100:2008 §4.2.3, §5.1.2, G.4.1 eq. G.2b (Welch–Satterthwaite), F.2.2.1',
  units: {
    x: 'any, replicates at one place',
    commonStandardUncertainty: 'that of x, k = 1, the same in every replicate',
    commonDegreesOfFreedom: '1; null or absent: endless',
    independentStandardUncertainty: 'that of x, k = 1, new in every replicate',
    level: '0–1, 0.95 when not given',
    degreesOfFreedom: 'effective; null: endless',
    expandedUncertainty: 'that of x, ±',
  },
  input: z.object({
    x: z.array(number),
    commonStandardUncertainty: number.nonnegative().default(0),
    commonDegreesOfFreedom: number.positive().nullish(),
    independentStandardUncertainty: number.nonnegative().default(0),
    level: number.optional(),
  }),
  output: z.object({
    n: number,
    mean: number,
    samplingStandardUncertainty: number.nullable(),
    commonStandardUncertainty: number,
    independentStandardUncertainty: number,
    standardUncertainty: number,
    degreesOfFreedom: number.nullable(),
    coverageFactor: number,
    expandedUncertainty: number,
    low: number,
    high: number,
    level: number,
    dominatedBy: z.enum(['sampling', 'instrument']),
  }),
  run({ x, level, commonDegreesOfFreedom, ...instrument }) {
    const degrees = commonDegreesOfFreedom ?? Number.POSITIVE_INFINITY
    return answer(meanUncertainty(x, { ...instrument, commonDegreesOfFreedom: degrees }, level), (found) => ({
      ...found,
      degreesOfFreedom: finiteOrNull(found.degreesOfFreedom),
    }))
  },
})
