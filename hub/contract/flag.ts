import { z } from 'zod'

/**
 * Quality of a reading on the QARTOD scale (IOOS QARTOD manuals; UNESCO/IOC primary-level flags):
 * 1 pass, 2 not evaluated, 3 suspect, 4 fail, 9 missing.
 */
export const Flag = z.union([z.literal(1), z.literal(2), z.literal(3), z.literal(4), z.literal(9)])
export type Flag = z.infer<typeof Flag>

/** Which test set a flag, and with what numbers. Kept with every reading whose flag is 3 or 4. */
export const FlagReason = z.object({
  test: z.string(),
  flag: Flag,
  text: z.string(),
})
export type FlagReason = z.infer<typeof FlagReason>
