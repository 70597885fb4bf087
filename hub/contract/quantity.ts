import './plain-words.ts'
import { z } from 'zod'

/**
 * What is measured. The five of a habitat study come first; the list is open, so any other lower-case
 * name is accepted for a probe of the class's own.
 */
export const QuantityName = z
  .string()
  .max(64)
  .regex(/^[a-z][a-z0-9_]*$/, 'lower-case letters, digits and _ only, such as soil_ph')
export type QuantityName = z.infer<typeof QuantityName>

/** How it is measured. Unlike methods are never pooled in silence. */
export const Method = z.strictObject({
  way: z.string().min(1).max(120).optional(),
  depthCentimetres: z.number().min(0).max(200).optional(),
  heightMetres: z.number().min(0).max(30).optional(),
})
export type Method = z.infer<typeof Method>
