import { z } from 'zod'
import { meanCover } from '../study/statistics/mean-cover.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const frequencyComputation = defineComputation({
  name: 'frequency',
  title: 'Percentage frequency and mean cover of one species, each with its interval',
  source: 'Wilson 1927, J. Am. Stat. Assoc. 22, 209–212; Student 1908, Biometrika 6, 1–25',
  units: {
    cover: '%, one a quadrat; 0: looked and absent, null: not recorded',
    level: '0–1, 0.95 when not given',
    percentFrequency: '% of quadrats recorded',
    meanCoverPercent: '%, zeros included',
  },
  input: z.object({ cover: z.array(number.nullable()), level: number.optional() }),
  output: z.object({
    quadratsPresent: number,
    quadratsRecorded: number,
    percentFrequency: number,
    lowPercent: number,
    highPercent: number,
    level: number,
    meanCoverPercent: number,
    meanCoverLowPercent: number.nullable(),
    meanCoverHighPercent: number.nullable(),
    meanCoverWherePresentPercent: number.nullable(),
  }),
  run: ({ cover, level }) => meanCover(cover, level),
})
