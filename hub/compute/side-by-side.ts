import { z } from 'zod'
import { isRefusal, sideBySideFactor } from '../../calibration/index.ts'
import { defineComputation } from './computation.ts'
import { advice, number, verdict } from './fields.ts'

export const sideBySide = defineComputation({
  name: 'side-by-side',
  title: 'Factor that makes a light sensor agree with the reference beside it',
  source: 'ratio of sums: Cochran 1977, Sampling Techniques, 3rd ed., §6.1',
  units: { 'pairs.probeLux': 'lx', 'pairs.referenceLux': 'lx', factor: '1', scatterOfRatios: '1' },
  input: z.object({ pairs: z.array(z.object({ probeLux: number, referenceLux: number })) }),
  output: z.object({
    factor: number,
    scatterOfRatios: number.nullable(),
    relativeStandardUncertainty: number.nullable(),
    pairCount: number,
    verdict,
    advice,
  }),
  run({ pairs }) {
    const found = sideBySideFactor(pairs)
    return isRefusal(found) ? found : { ...found, advice: found.advice.map((each) => each.text) }
  },
})
