import { z } from 'zod'

/** One light reading of a quadrat beside the open sky at the same moment. */
export const LightPair = z.object({
  timeMs: z.number(),
  lux: z.number(),
  /** of the open sky, interpolated to that moment; null when it could not be told */
  openLux: z.number().nullable(),
  percent: z.number().nullable(),
  /** why the pair is suspect or none, in words */
  remarks: z.array(z.string()),
})
export type LightPair = z.infer<typeof LightPair>

/** A quadrat's light as a percentage of the open sky. */
export const RelativeLightOfQuadrat = z.object({
  quadrat: z.string(),
  probe: z.string(),
  readings: z.number().int(),
  /** pairs without a remark: only these count */
  paired: z.number().int(),
  medianPercent: z.number().nullable(),
  lowerQuartilePercent: z.number().nullable(),
  upperQuartilePercent: z.number().nullable(),
  /** remark → how many pairs have it */
  remarks: z.array(z.object({ text: z.string(), n: z.number().int() })),
  /** some of the pairs, evenly over the time */
  examples: z.array(LightPair),
})
export type RelativeLightOfQuadrat = z.infer<typeof RelativeLightOfQuadrat>

/** Wind at a quadrat beside the mast, minute by minute. */
export const WindBesideMast = z.object({
  quadrat: z.string(),
  probe: z.string(),
  /** minutes in which both were measured */
  minutes: z.number().int(),
  meanMetresPerSecond: z.number().nullable(),
  mastMetresPerSecond: z.number().nullable(),
  /** mean of the quadrat over mean of the mast in the same minutes; null when the mast was calm */
  ratio: z.number().nullable(),
})
export type WindBesideMast = z.infer<typeof WindBesideMast>

export const Pairing = z.object({
  openSky: z.string().nullable(),
  windMast: z.string().nullable(),
  light: z.array(RelativeLightOfQuadrat),
  wind: z.array(WindBesideMast),
})
export type Pairing = z.infer<typeof Pairing>
