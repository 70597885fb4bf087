import { z } from 'zod'
import { summariseWind } from '../../calibration/index.ts'
import { answer, defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const windSummary = defineComputation({
  name: 'wind-summary',
  title: 'Mean, gust and calm from the pulses of each second',
  source: 'WMO-No. 8, Part I ch. 5; ISO 17713-1:2007',
  units: {
    counts: 'pulses in each second',
    offsetMetresPerSecond: 'm/s',
    slopeMetresPerSecondPerHertz: 'm/s per Hz',
    blockSeconds: 's, 60 when not given',
    meanMetresPerSecond: 'm/s',
    calmPercent: '% of blocks',
    gustMetresPerSecond: 'm/s over 3 s',
  },
  input: z.object({
    counts: z.array(number),
    offsetMetresPerSecond: number,
    slopeMetresPerSecondPerHertz: number,
    blockSeconds: number.optional(),
  }),
  output: z.object({
    meanMetresPerSecond: number,
    calmPercent: number,
    gustMetresPerSecond: number.nullable(),
    gustEndsAtSecond: number.nullable(),
    blockSeconds: number,
    blockMeansMetresPerSecond: z.array(number),
    twoMinuteMeansMetresPerSecond: z.array(number),
    tenMinuteMeansMetresPerSecond: z.array(number),
    wholeIntervalMetresPerSecond: number,
    suspectSeconds: z.array(number),
    meanIncludesSuspectSeconds: z.boolean(),
  }),
  run: ({ counts, blockSeconds, ...factor }) =>
    answer(summariseWind(counts, factor, blockSeconds), (summary) => ({ ...summary })),
})
