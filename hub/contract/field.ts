import { z } from 'zod'
import { Method } from './quantity.ts'
import { TimeSpan } from './reading.ts'
import { Wanted } from './survey.ts'
import { TrapNow } from './trap.ts'

/** A probe that stands at a quadrat and logs: what came, and what its board’s interval says should have come. */
export const StandingCount = z.object({
  probe: z.string(),
  board: z.string(),
  /** it stands there now, and its board has been heard within three intervals */
  isLogging: z.boolean(),
  /** it still stands there */
  isThere: z.boolean(),
  received: z.number().int(),
  /** null: the interval of the board is not known */
  expected: z.number().int().nullable(),
  /** received of expected, 0–1; null: not known */
  completeness: z.number().nullable(),
  gaps: z.array(TimeSpan),
})
export type StandingCount = z.infer<typeof StandingCount>

/** What is missing in a cell, by what would mend it. */
export const CellNeed = z.object({
  kind: z.enum(['measure', 'probe', 'board', 'calibration', 'clock', 'value']),
  words: z.string(),
  /** the board or probe it is about; null: the quadrat itself */
  of: z.string().nullable(),
})
export type CellNeed = z.infer<typeof CellNeed>

/** One quantity at one quadrat. */
export const CompletenessCell = z.object({
  quadrat: z.string(),
  quantity: z.string(),
  method: Method,
  by: z.enum(['carried', 'standing']),
  state: z.enum(['complete', 'partly', 'missing', 'not wanted']),
  /** clean replicates, or probes that stand and have logged */
  got: z.number().int(),
  needed: z.number().int(),
  standing: z.array(StandingCount),
  /** null: nothing has been measured yet, or it does not apply */
  isSteady: z.boolean().nullable(),
  isCalibrated: z.boolean().nullable(),
  isClockKnown: z.boolean().nullable(),
  last: z.object({ value: z.number(), unit: z.string(), timeMs: z.number() }).nullable(),
  /** what can still be mended */
  missing: z.array(CellNeed),
  /** what is as it is: gaps, replicates that do not count */
  remarks: z.array(z.string()),
  /** what the missing takes, minutes */
  minutes: z.number(),
})
export type CompletenessCell = z.infer<typeof CompletenessCell>

export const BoardLoss = z.object({
  board: z.string(),
  messages: z.number().int(),
  missed: z.number().int(),
  /** missed of all that were sent, 0–1 */
  share: z.number(),
})
export type BoardLoss = z.infer<typeof BoardLoss>

/** Quadrat × quantity: what is there, and what is not. Cells go by quadrat, then by what is wanted. */
export const Completeness = z.object({
  nowMs: z.number(),
  /** false: the survey does not say what is wanted, and it was read off its probes and spot readings */
  isWantedGiven: z.boolean(),
  wanted: z.array(Wanted),
  quadrats: z.array(z.string()),
  cells: z.array(CompletenessCell),
  loss: z.array(BoardLoss),
})
export type Completeness = z.infer<typeof Completeness>

export const LeaveThing = z.object({
  kind: z.enum(['measure', 'probe', 'board', 'calibration', 'clock', 'value', 'trap']),
  words: z.string(),
  quantity: z.string().nullable(),
  /** the board, probe or trap it is about */
  of: z.string().nullable(),
  minutes: z.number(),
})
export type LeaveThing = z.infer<typeof LeaveThing>

export const LeaveStop = z.object({
  quadrat: z.string(),
  /** from the stop before, or from where the class is; null: not known */
  metres: z.number().nullable(),
  /** measuring, mending and walking there */
  minutes: z.number(),
  /** groups that have this quadrat */
  groups: z.array(z.string()),
  things: z.array(LeaveThing),
})
export type LeaveStop = z.infer<typeof LeaveStop>

export const SilentBoard = z.object({
  board: z.string(),
  /** null: never heard */
  lastHeardMs: z.number().nullable(),
  quadrats: z.array(z.string()),
})
export type SilentBoard = z.infer<typeof SilentBoard>

/** May the class go? */
export const Leave = z.object({
  nowMs: z.number(),
  maySafelyGo: z.boolean(),
  /** “You may go”, or “Not yet: 3 things, about 11 minutes” */
  sentence: z.string(),
  things: z.number().int(),
  minutes: z.number(),
  /** where the class is; null: not said */
  at: z.string().nullable(),
  /** in the order of least walking */
  stops: z.array(LeaveStop),
  /** what is bound to no quadrat */
  elsewhere: z.array(LeaveThing),
  silent: z.array(SilentBoard),
  /** due and overdue */
  traps: z.array(TrapNow),
  /** that stay behind, and by when somebody must come */
  staying: z.array(TrapNow),
  reminders: z.array(
    z.object({ kind: z.enum(['count', 'check', 'calibration', 'wanted']), words: z.string() }),
  ),
})
export type Leave = z.infer<typeof Leave>

export const DepartureItem = z.object({
  about: z.enum(['boards', 'clocks', 'probes', 'hub', 'plan']),
  state: z.enum(['ok', 'look', 'fail']),
  title: z.string(),
  /** what was found */
  words: z.string(),
  /** what to do about it; null: nothing */
  remedy: z.string().nullable(),
  /** where that is done */
  to: z
    .object({
      page: z.enum(['boards', 'probe', 'plan', 'clocks', 'quarantine']),
      probe: z.string().nullable(),
    })
    .nullable(),
})
export type DepartureItem = z.infer<typeof DepartureItem>

/** Before leaving the school: is everything fit to go out? */
export const Departure = z.object({
  nowMs: z.number(),
  mayGoOut: z.boolean(),
  sentence: z.string(),
  items: z.array(DepartureItem),
})
export type Departure = z.infer<typeof Departure>
