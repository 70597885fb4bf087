import { z } from 'zod'

const Verdict = z.enum(['pass', 'warn', 'fail'])

/** A check standard with what the probe read and how far off that was. */
export const CheckJudged = z.object({
  id: z.string(),
  at: z.string(),
  when: z.enum(['before', 'after']),
  reference: z.number(),
  referenceName: z.string(),
  reading: z.number().nullable(),
  error: z.number().nullable(),
  passLimit: z.number().nullable(),
  verdict: Verdict.nullable(),
  /** the calibration the reading was worked out by */
  calibration: z.string().nullable(),
})
export type CheckJudged = z.infer<typeof CheckJudged>

/** One line of the readiness sheet. */
export const ProbeReadiness = z.object({
  probe: z.string(),
  quantity: z.string(),
  board: z.string(),
  channel: z.string(),
  state: z.enum(['ready', 'not checked', 'due', 'failed', 'never calibrated', 'withdrawn']),
  mayGoOut: z.boolean(),
  why: z.string(),
  calibration: z.string().nullable(),
  calibratedAt: z.string().nullable(),
  verdict: Verdict.nullable(),
  ageDays: z.number().nullable(),
  intervalDays: z.number(),
  lastAttemptFailed: z.boolean(),
  checks: z.array(CheckJudged),
})
export type ProbeReadiness = z.infer<typeof ProbeReadiness>

/** What a calibration, or withdrawing one, would change, before it is done. */
export const QuadratMove = z.object({
  quadrat: z.string(),
  quantity: z.string(),
  unit: z.string(),
  readings: z.number().int(),
  /** how many have a usable value before and after */
  valuesBefore: z.number().int(),
  valuesAfter: z.number().int(),
  meanBefore: z.number().nullable(),
  meanAfter: z.number().nullable(),
  /** of the single readings, after minus before */
  smallestMove: z.number().nullable(),
  largestMove: z.number().nullable(),
})
export type QuadratMove = z.infer<typeof QuadratMove>
