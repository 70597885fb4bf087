import { z } from 'zod'

/** A quality test as the page shows and edits it. */
export const QualityTestListed = z.object({
  name: z.string(),
  title: z.string(),
  explain: z.string(),
  source: z.string(),
  /** by quantity; for a quantity that is not here the test is off unless a survey switches it on */
  defaults: z.record(z.string(), z.object({ limits: z.unknown(), unit: z.string() })),
  /** JSON Schema of the limits */
  schema: z.unknown(),
})
export type QualityTestListed = z.infer<typeof QualityTestListed>
