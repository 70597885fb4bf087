import { z } from 'zod'

/** From low to high, both belonging to it, in the unit of what is judged. */
export const Span = z
  .tuple([z.number(), z.number()])
  .readonly()
  .refine(([low, high]) => low <= high, 'the lower limit comes first')
export type Span = z.infer<typeof Span>
