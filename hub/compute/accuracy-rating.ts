import { z } from 'zod'
import { rateAccuracy } from '../../calibration/index.ts'
import { answer, defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const accuracyRating = defineComputation({
  name: 'accuracy-rating',
  title: 'Rating of a record by the corrections put on it',
  source: 'Wagner, Boulger, Oblinger & Smith 2006, USGS Techniques and Methods 1-D3, rating table',
  units: { corrections: 'the quantity’s: pH or °C' },
  input: z.object({ quantity: z.string(), corrections: z.array(number) }),
  output: z.object({ rating: z.enum(['excellent', 'good', 'fair', 'poor']) }),
  run: ({ quantity, corrections }) => answer(rateAccuracy(quantity, corrections), (rating) => ({ rating })),
})
