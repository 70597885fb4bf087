import { z } from 'zod'
import { Calibration, Instant, Probe } from './survey.ts'

/** Puts a probe at a quadrat from a moment on (null: in transit). A probe that is not known yet comes whole. */
export const PlaceProbe = z.strictObject({
  probe: z.union([Probe, z.string()]),
  quadrat: z.string().nullable(),
  from: Instant,
})
export type PlaceProbe = z.infer<typeof PlaceProbe>

export const AddCalibration = Calibration.omit({ withdrawn: true })
export type AddCalibration = z.infer<typeof AddCalibration>

export const WithdrawCalibration = z.strictObject({ reason: z.string().min(1).max(400) })

export const OpenPort = z.strictObject({
  path: z.string().min(1).max(260),
  baudRate: z.number().int().min(300).max(921_600).default(115_200),
})

export const AskBoard = z.strictObject({ words: z.string().regex(/^(who|every \d+(\.\d+)?|time)$/) })

export const RehearsalWish = z.strictObject({
  seed: z
    .number()
    .int()
    .min(0)
    .max(2 ** 31)
    .default(7),
  speed: z.number().min(1).max(600).default(1),
  faults: z
    .array(z.string().regex(/^[a-z-]+$/))
    .max(20)
    .default([]),
})
export type RehearsalWish = z.infer<typeof RehearsalWish>
