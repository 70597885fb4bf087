import { z } from 'zod'

/** What is clean and what is left out, in numbers and in a sentence. `clean` and all of `leftOut` add up to `all`. */
export const CleanCount = z.object({
  all: z.number().int(),
  clean: z.number().int(),
  leftOut: z.array(z.object({ reason: z.string(), n: z.number().int() })),
  sentence: z.string(),
})
export type CleanCount = z.infer<typeof CleanCount>
