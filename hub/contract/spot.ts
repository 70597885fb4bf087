import { z } from 'zod'
import { Identifier, Instant, Label } from './names.ts'
import { Method } from './quantity.ts'

/** Made where the spot reading is taken, so that sending it twice keeps it once. */
export const SpotId = z.string().regex(/^[A-Za-z0-9-]{8,64}$/, '8 to 64 letters, digits and dashes')

const group = z.string().trim().min(1).max(20)

/** One insertion of a carried meter: the readings of its channel from `from` to `to` are of the quadrat. Hub time. */
export const HeldReplicate = z.strictObject({
  from: Instant,
  /** exclusive */
  to: Instant,
  /** the signal had settled; one that had not is kept and left out of the clean set */
  isSteady: z.boolean(),
})
export type HeldReplicate = z.infer<typeof HeldReplicate>

/** One value read off a meter and typed in. */
export const TypedReplicate = z.strictObject({
  /** in the unit the probe is read in */
  value: z.number(),
  /** by the clock of the phone; what counts is how long before sending */
  at: Instant,
})

/**
 * A spot reading as it comes from a phone, perhaps long after it was taken. `sentAt` is the phone’s clock at sending: a
 * phone whose clock is wrong is found by it, and its times are put right by the difference.
 */
export const AddSpot = z.strictObject({
  id: SpotId,
  quadrat: Label,
  probe: Identifier,
  by: group.optional(),
  note: z.string().max(400).optional(),
  sentAt: Instant,
  held: z.array(HeldReplicate).min(1).max(50).optional(),
  typed: z.array(TypedReplicate).min(1).max(50).optional(),
})
export type AddSpot = z.infer<typeof AddSpot>

/** What a person has changed about a spot reading afterwards; the first record stays. */
export const SpotAmendment = z.strictObject({
  at: Instant,
  by: group.optional(),
  reason: z.string().trim().min(3).max(400),
  /** it was at this quadrat */
  quadrat: Label.optional(),
  /** true: it does not count any more; false: it counts again */
  isTakenBack: z.boolean().optional(),
})
export type SpotAmendment = z.infer<typeof SpotAmendment>

export const AmendSpot = SpotAmendment.omit({ at: true })
export type AmendSpot = z.infer<typeof AmendSpot>

/** A spot reading as it is kept: what happened, and every change made to it since. */
export const Spot = z.strictObject({
  id: SpotId,
  survey: Identifier,
  /** where it counts now */
  quadrat: Label,
  probe: Identifier,
  by: group.optional(),
  note: z.string().max(400).optional(),
  receivedAt: Instant,
  /** what the phone’s clock was ahead of the hub’s, seconds; 0 when it was not used */
  phoneAheadSeconds: z.number(),
  isTyped: z.boolean(),
  replicates: z.array(HeldReplicate).min(1).max(50),
  isTakenBack: z.boolean().default(false),
  amendments: z.array(SpotAmendment).max(100).default([]),
})
export type Spot = z.infer<typeof Spot>

/** A replicate with what its readings come to. */
export const ReplicateValue = z.object({
  from: Instant,
  to: Instant,
  isSteady: z.boolean(),
  /** mean of the readings that count; null when none does */
  value: z.number().nullable(),
  /** standard uncertainty of the probe and its calibration */
  uncertainty: z.number().nullable(),
  readings: z.number().int(),
  /** why it is not clean; null when it is */
  leftOut: z.string().nullable(),
})
export type ReplicateValue = z.infer<typeof ReplicateValue>

/** A spot reading with its values, worked out from the stored readings by the calibration now in force. */
export const SpotValue = z.object({
  spot: Spot,
  quantity: z.string(),
  method: Method,
  unit: z.string(),
  replicates: z.array(ReplicateValue),
  /** of the clean replicates */
  n: z.number().int(),
  mean: z.number().nullable(),
  /** largest minus smallest; null with fewer than two */
  range: z.number().nullable(),
  /** half the width of the 95 % interval of the mean, spread and probe together; null when it cannot be known */
  expanded: z.number().nullable(),
  /** such as “soil pH differs by more than 0.5 between replicates” */
  warnings: z.array(z.string()),
})
export type SpotValue = z.infer<typeof SpotValue>
