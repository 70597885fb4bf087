import { z } from 'zod'
import { Identifier, Instant, Label, Who } from './names.ts'
import {
  Calibration,
  CheckStandard,
  ClockCorrection,
  Decision,
  DriftCorrection,
  Probe,
  QualitySettings,
} from './survey.ts'
import { Trap, TrapCheck } from './trap.ts'

/** Survey files of before may say anything here; what is entered anew may not be a name. */
const who = { by: Who.optional() }

/** Puts a probe at a quadrat from a moment on (null: in transit). A probe that is not known yet comes whole. */
export const PlaceProbe = z.strictObject({
  probe: z.union([Probe, z.string()]),
  quadrat: z.string().nullable(),
  from: Instant,
  /** what the hub asked about was looked at: two probes of one quantity at one quadrat, one probe at two places … */
  isSure: z.boolean().optional(),
  /** why it is said afterwards; kept with the change */
  reason: z.string().trim().min(3).max(400).optional(),
})
export type PlaceProbe = z.infer<typeof PlaceProbe>

export const AddCalibration = Calibration.omit({ withdrawn: true }).extend(who)
export type AddCalibration = z.infer<typeof AddCalibration>

export const WithdrawCalibration = z.strictObject({ reason: z.string().min(1).max(400) })

export const AddCheck = CheckStandard.extend(who)
export type AddCheck = z.infer<typeof AddCheck>

/** Asks for a drift correction, or (`checks` empty) takes it away again. */
export const SetDrift = DriftCorrection.extend({ checks: z.array(z.string()).max(2), ...who })
export type SetDrift = z.infer<typeof SetDrift>

/** Withdraws a probe with a reason, or (`reason` null) takes it back into use. */
export const WithdrawProbe = z.strictObject({ reason: z.string().min(1).max(400).nullable() })

/** A decision by hand; the hub gives it its id and time. */
export const AddDecision = Decision.omit({ id: true, at: true, takenBack: true }).extend(who)
export type AddDecision = z.infer<typeof AddDecision>

export const TakeBackDecision = z.strictObject(who)

/** All thresholds of a survey that differ from the defaults. */
export const SetQuality = QualitySettings

/** What is to be tried out: a calibration added, or one withdrawn. */
export const PreviewWish = z.strictObject({
  add: AddCalibration.optional(),
  withdraw: z.string().optional(),
})
export type PreviewWish = z.infer<typeof PreviewWish>

/** Rehearsal only: put a simulated probe into a beaker, an ice bath, before a fan … or back. */
export const PutProbe = z.strictObject({
  board: z.string(),
  channel: z.string(),
  where: z.string().max(40),
  celsius: z.number().optional(),
  lux: z.number().optional(),
  metresPerSecond: z.number().optional(),
})
export type PutProbe = z.infer<typeof PutProbe>

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
    .array(z.string().regex(/^[a-z0-9-]+$/))
    .max(20)
    .default([]),
  /** begin on the bench: nothing calibrated or placed yet */
  bench: z.boolean().default(false),
})
export type RehearsalWish = z.infer<typeof RehearsalWish>

/**
 * Corrects a placement made before: another quadrat (null: in transit), other times, cut in two of which one part was
 * elsewhere, or none at all.
 */
export const AmendPlacement = z.strictObject({
  probe: Identifier,
  /** when the placement to correct begins, as it is written in the survey */
  begins: Instant,
  set: z
    .strictObject({
      quadrat: Label.nullable().optional(),
      from: Instant.optional(),
      /** null: until the next one */
      to: Instant.nullable().optional(),
    })
    .optional(),
  split: z
    .strictObject({
      at: Instant,
      /** which part was at the quadrat: that before the cut, or that after it */
      part: z.enum(['before', 'after']),
      quadrat: Label.nullable(),
    })
    .optional(),
  remove: z.literal(true).optional(),
  reason: z.string().trim().min(3).max(400),
  isSure: z.boolean().optional(),
})
export type AmendPlacement = z.infer<typeof AmendPlacement>

/** A clock found wrong afterwards; the hub gives the correction its id and time. */
export const AddClockCorrection = ClockCorrection.omit({ id: true, at: true }).extend(who)
export type AddClockCorrection = z.infer<typeof AddClockCorrection>

/** Without an id the hub gives the trap one. */
export const SetTrap = Trap.omit({ checks: true }).partial({ id: true })
export type SetTrap = z.infer<typeof SetTrap>

/** A trap was looked at, now or at a time that is given. */
export const CheckTrap = TrapCheck.partial({ at: true })
export type CheckTrap = z.infer<typeof CheckTrap>

/** What a probe is there for: carried round, or standing for the whole survey (null: neither). */
export const SetProbeRole = z.strictObject({
  isCarried: z.boolean().optional(),
  reference: z.enum(['open-sky', 'wind-mast']).nullable().optional(),
})
export type SetProbeRole = z.infer<typeof SetProbeRole>
