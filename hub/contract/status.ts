import { z } from 'zod'

export const PortNow = z.object({
  path: z.string(),
  baudRate: z.number().int(),
  state: z.enum(['opening', 'open', 'silent', 'gone', 'closed']),
  trouble: z.string().nullable(),
  lastHeardMs: z.number().nullable(),
  /** what a person may want to know of it that is no trouble: that its board came back under another name */
  note: z.string().nullable(),
})
export type PortNow = z.infer<typeof PortNow>

export const BoardNow = z.object({
  name: z.string(),
  firstHeardMs: z.number().nullable(),
  lastHeardMs: z.number().nullable(),
  source: z.string().nullable(),
  link: z.enum(['up', 'lost']).nullable(),
  startup: z.number().nullable(),
  messages: z.number().int(),
  missed: z.number().int(),
  about: z.string().nullable(),
  trouble: z.string().nullable(),
  /** it has a key, and must show it to the broker */
  hasKey: z.boolean(),
  /** none of its channels belongs to a probe yet */
  isWaiting: z.boolean(),
})
export type BoardNow = z.infer<typeof BoardNow>

export const Tallies = z.object({
  readings: z.number().int(),
  messages: z.number().int(),
  repeats: z.number().int(),
  quarantined: z.number().int(),
})
export type Tallies = z.infer<typeof Tallies>

export const HubNow = z.object({
  version: z.string(),
  /** the hub's clock, which in a rehearsal may run fast; all “how long ago” is against this */
  nowMs: z.number(),
  isRehearsal: z.boolean(),
  speed: z.number(),
  /** where boards publish to */
  broker: z.object({
    description: z.string(),
    state: z.enum(['open', 'gone']),
    trouble: z.string().nullable(),
  }),
  /** what keeps the hub from storing, or null */
  trouble: z.string().nullable(),
  tallies: Tallies,
  surveys: z.array(z.object({ id: z.string(), title: z.string() })),
  isRecomputing: z.boolean(),
  /** readings whose values are being worked out again: still to do, and in all */
  recomputing: z.object({ left: z.number().int(), total: z.number().int() }),
  /** the machine's clock was set while the hub ran: what was timed by it before is wrong by as much */
  clockJumps: z.array(z.object({ atMs: z.number(), byMs: z.number(), sinceMs: z.number() })),
  /** copies made on a schedule; null when the hub was started without a place for them */
  backup: z
    .object({
      to: z.string(),
      lastMs: z.number().nullable(),
      lastFile: z.string().nullable(),
      trouble: z.string().nullable(),
    })
    .nullable(),
  /** cursor for the stream */
  lastMessage: z.number().int(),
  /** goes up by one with each change of surveys, spot readings or stored values that the stream tells of; begins anywhere */
  changes: z.number().int(),
})
export type HubNow = z.infer<typeof HubNow>

export const Quarantined = z.object({
  id: z.number().int(),
  arrived: z.string(),
  source: z.string(),
  board: z.string().nullable(),
  code: z.string(),
  message: z.string(),
  remedy: z.string(),
  /** first bytes as text, what is not printable as · */
  shown: z.string(),
  length: z.number().int(),
})
export type Quarantined = z.infer<typeof Quarantined>

export const ErrorBody = z.object({
  error: z.object({
    code: z.string(),
    message: z.string(),
    faults: z.array(z.object({ path: z.string(), message: z.string() })).optional(),
  }),
})
export type ErrorBody = z.infer<typeof ErrorBody>

/** Where the page can be opened. */
export const HubAddress = z.object({
  url: z.string(),
  kind: z.enum(['network', 'name', 'loopback']),
  isReachableByPhones: z.boolean(),
})
export type HubAddress = z.infer<typeof HubAddress>

/** What is wrong at this moment, in words. */
export const HubHealth = z.object({
  isWell: z.boolean(),
  troubles: z.array(z.object({ what: z.string(), said: z.string() })),
})
export type HubHealth = z.infer<typeof HubHealth>
