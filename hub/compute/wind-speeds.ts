import { z } from 'zod'
import { summariseSpeeds } from '../../calibration/index.ts'
import { answer, defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const windSpeeds = defineComputation({
  name: 'wind-speeds',
  title: 'Mean and three-second gust of speeds given once a second',
  source: 'WMO-No. 8, Part I ch. 5',
  units: {
    metresPerSecond: 'm/s, one per second',
    meanMetresPerSecond: 'm/s',
    highestMetresPerSecond: 'm/s',
    gustMetresPerSecond: 'm/s over 3 s',
  },
  input: z.object({ metresPerSecond: z.array(number) }),
  output: z.object({
    meanMetresPerSecond: number,
    highestMetresPerSecond: number,
    gustMetresPerSecond: number.nullable(),
    gustEndsAtSecond: number.nullable(),
  }),
  run: ({ metresPerSecond }) => answer(summariseSpeeds(metresPerSecond), (summary) => ({ ...summary })),
})
