import { z } from 'zod'
import { GroupLabel, Identifier, Instant, Label } from './names.ts'

export { knownSamplingMethods } from './sampling-methods.ts'

/** A trap was looked at; `closed` ends its time, otherwise it was set again and its clock runs on from here. */
export const TrapCheck = z.strictObject({
  at: Instant,
  by: GroupLabel.optional(),
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
  by: GroupLabel.optional(),
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

/** An open trap of any survey, for the warning that stands on every page. */
export const TrapWatched = TrapNow.extend({ survey: z.string(), title: z.string() })
export type TrapWatched = z.infer<typeof TrapWatched>

/** What the hub’s own thermometers in the survey said in the last hour; null where none did. */
export const TrapWeather = z.object({
  coldestCelsius: z.number().nullable(),
  warmestCelsius: z.number().nullable(),
})
export type TrapWeather = z.infer<typeof TrapWeather>
