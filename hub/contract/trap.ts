import { z } from 'zod'
import { Identifier, Instant, Label } from './names.ts'

/**
 * Ways to catch or gather animals, in the trade’s words. The list is open: any other words may be used. Those that catch
 * animals alive and hold them are marked, because they must be looked at in time.
 */
export const knownSamplingMethods = [
  { name: 'live mammal trap', holdsAnimals: true, isLeftStanding: true, checkWithinHours: 24 },
  { name: 'pitfall trap', holdsAnimals: true, isLeftStanding: true, checkWithinHours: 24 },
  { name: 'refuge trap', holdsAnimals: false, isLeftStanding: true, checkWithinHours: 48 },
  { name: 'extraction funnel', holdsAnimals: false, isLeftStanding: true, checkWithinHours: 72 },
  { name: 'light trap', holdsAnimals: true, isLeftStanding: true, checkWithinHours: 12 },
  { name: 'sweep net', holdsAnimals: false, isLeftStanding: false, checkWithinHours: null },
  { name: 'beating tray', holdsAnimals: false, isLeftStanding: false, checkWithinHours: null },
  { name: 'pooter', holdsAnimals: false, isLeftStanding: false, checkWithinHours: null },
  { name: 'plankton net', holdsAnimals: false, isLeftStanding: false, checkWithinHours: null },
  { name: 'grapnel', holdsAnimals: false, isLeftStanding: false, checkWithinHours: null },
  { name: 'hand search', holdsAnimals: false, isLeftStanding: false, checkWithinHours: null },
] as const

/** A trap was looked at; `closed` ends its time, otherwise it was set again and its clock runs on from here. */
export const TrapCheck = z.strictObject({
  at: Instant,
  by: z.string().max(20).optional(),
  /** what was found; nothing found is worth writing down too */
  note: z.string().max(400).optional(),
  isClosed: z.boolean().default(false),
})
export type TrapCheck = z.infer<typeof TrapCheck>

/** A trap, refuge or funnel that is left standing, with its clock. */
export const Trap = z.strictObject({
  id: Identifier,
  /** in the trade’s words; see `knownSamplingMethods` */
  method: z.string().min(1).max(60),
  quadrat: Label,
  setAt: Instant,
  /** how long it may stand unlooked-at, hours; the teacher’s local rule goes before the default */
  checkWithinHours: z
    .number()
    .positive()
    .max(24 * 30),
  /** below or above this the limit is halved, and that is said; temperatures of the hub’s own probes */
  badWeather: z
    .strictObject({ belowCelsius: z.number().optional(), aboveCelsius: z.number().optional() })
    .optional(),
  checks: z.array(TrapCheck).max(1000).default([]),
  by: z.string().max(20).optional(),
  note: z.string().max(400).optional(),
})
export type Trap = z.infer<typeof Trap>

/** A trap at this moment. */
export const TrapNow = z.object({
  trap: Trap,
  state: z.enum(['not-set-yet', 'set', 'due', 'overdue', 'closed']),
  holdsAnimals: z.boolean(),
  /** it must have been looked at by then; null when it is closed */
  dueMs: z.number().nullable(),
  /** the limit that counts, hours, after bad weather */
  limitHours: z.number(),
  /** the hub’s own coldest or warmest reading of the last hour, when that shortened the limit */
  weather: z.string().nullable(),
  /** hours from setting to the last check, or to now */
  exposedHours: z.number(),
})
export type TrapNow = z.infer<typeof TrapNow>

export type TrapState = TrapNow['state']

/** In the last part of its time a trap is due; common practice, no source. */
export const DUE_IN_LAST_PART = 0.25

/**
 * State of a trap that is set, from when it must have been looked at. The hub and the page reckon alike, so that a page
 * that has lost the hub still says that a trap is overdue.
 * @param dueMs  null: it is closed
 */
export function trapStateAt(
  { setMs, dueMs, limitHours }: { setMs: number; dueMs: number | null; limitHours: number },
  nowMs: number,
): TrapState {
  if (dueMs === null) return 'closed'
  if (nowMs < setMs) return 'not-set-yet'
  if (nowMs >= dueMs) return 'overdue'
  return nowMs >= dueMs - DUE_IN_LAST_PART * limitHours * 3_600_000 ? 'due' : 'set'
}

/** An open trap of any survey, for the warning that stands on every page. */
export const TrapWatched = TrapNow.extend({ survey: z.string(), title: z.string() })
export type TrapWatched = z.infer<typeof TrapWatched>

/** What the hub’s own thermometers in the survey said in the last hour; null where none did. */
export const TrapWeather = z.object({
  coldestCelsius: z.number().nullable(),
  warmestCelsius: z.number().nullable(),
})
export type TrapWeather = z.infer<typeof TrapWeather>
