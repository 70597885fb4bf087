import { z } from 'zod'
import { Instant } from './names.ts'

/** What a download is asked for: the set, and filters. `from` counts, `to` does not. */
export const exportQuery = z
  .object({
    from: Instant.optional(),
    to: Instant.optional(),
    /** `excluded` is all that is not clean, with the reason in two more columns: clean + excluded = all */
    set: z.enum(['clean', 'excluded', 'all']).default('clean'),
    survey: z.string().optional(),
    quadrat: z.string().optional(),
    quantity: z.string().optional(),
    /** `shown` adds two columns at the end: the value corrected for drift, where that was asked for, and the correction */
    drift: z.enum(['hidden', 'shown']).default('hidden'),
    /** `shown` adds three columns: way, depth and height, by which unlike methods are told apart */
    method: z.enum(['hidden', 'shown']).default('hidden'),
  })
  .refine(({ from, to }) => from === undefined || to === undefined || Date.parse(from) < Date.parse(to), {
    path: ['to'],
    message: 'is not after from',
  })
export type ExportQuery = z.infer<typeof exportQuery>
