import { z } from 'zod'
import { Flag, FlagReason } from './flag.ts'
import { Method } from './quantity.ts'

/**
 * A reading on the live stream, as a row to keep it small:
 * [id, channel, time (UTC ms), signal, value or null, standard uncertainty or null, flag].
 */
export const ReadingTuple = z.tuple([
  z.number().int(),
  z.number().int(),
  z.number(),
  z.number(),
  z.number().nullable(),
  z.number().nullable(),
  Flag,
])
export type ReadingTuple = z.infer<typeof ReadingTuple>

/** What a channel of a board is at this moment: which probe, where, under which calibration, and its newest reading. */
export const ChannelNow = z.object({
  id: z.number().int(),
  board: z.string(),
  channel: z.string(),
  signalUnit: z.string(),
  survey: z.string().nullable(),
  probe: z.string().nullable(),
  quantity: z.string().nullable(),
  method: Method.nullable(),
  /** null: carried, lifted or never placed */
  quadrat: z.string().nullable(),
  transect: z.string().nullable(),
  distanceMetres: z.number().nullable(),
  calibration: z.string().nullable(),
  verdict: z.enum(['pass', 'warn', 'fail']).nullable(),
  valueUnit: z.string().nullable(),
  /** UTC ms of its oldest reading */
  firstMs: z.number().nullable(),
  /** the interval its board says it samples at, s */
  expectedIntervalSeconds: z.number().nullable(),
  latest: ReadingTuple.nullable(),
  /** of the newest reading */
  why: z.array(FlagReason),
})
export type ChannelNow = z.infer<typeof ChannelNow>

/** One probe's readings at one quadrat. Lists are aligned; a step without a value has null. */
export const QuadratSeries = z.object({
  channel: z.number().int(),
  quantity: z.string(),
  unit: z.string(),
  probe: z.string(),
  method: Method,
  timeMs: z.array(z.number()),
  low: z.array(z.number().nullable()),
  mean: z.array(z.number().nullable()),
  high: z.array(z.number().nullable()),
  uncertainty: z.array(z.number().nullable()),
  flag: z.array(z.number()),
  /** readings in each step */
  count: z.array(z.number()),
  /** the reading, where a step is one reading */
  id: z.array(z.number().nullable()),
  /** the means corrected for drift, where a person has asked for that; null: not asked for */
  corrected: z.array(z.number().nullable()).nullable(),
  /** the interval readings are expected at, s; a longer pause is a gap */
  expectedIntervalSeconds: z.number().nullable(),
})
export type QuadratSeries = z.infer<typeof QuadratSeries>

export const TimeSpan = z.object({ fromMs: z.number(), toMs: z.number() })
export type TimeSpan = z.infer<typeof TimeSpan>

/** Something that was done to a probe, on the time axis of its chart. */
export const ChartMark = z.object({
  timeMs: z.number(),
  kind: z.enum(['calibration', 'placement']),
  quantity: z.string(),
  probe: z.string(),
  text: z.string(),
})
export type ChartMark = z.infer<typeof ChartMark>

/** One reading with everything it rests on, down to the bytes. */
export const ReadingExplained = z.object({
  id: z.number().int(),
  time: z.string(),
  timeOrigin: z.string(),
  /** by how much its time may be wrong either way, seconds; null: it cannot be said */
  timeErrorSeconds: z.number().nullable(),
  /** how that comes about, in words */
  timeErrorWhy: z.string(),
  value: z.number().nullable(),
  unit: z.string().nullable(),
  uncertainty: z.number().nullable(),
  flag: Flag,
  why: z.array(FlagReason),
  signal: z.number(),
  signalUnit: z.string(),
  board: z.string(),
  channel: z.string(),
  survey: z.string().nullable(),
  quadrat: z.string().nullable(),
  probe: z.string().nullable(),
  quantity: z.string().nullable(),
  method: Method.nullable(),
  calibration: z.string().nullable(),
  calibrationRecipe: z.unknown(),
  calibrationFacts: z.record(z.string(), z.union([z.number(), z.string(), z.null()])),
  message: z.object({
    id: z.number().int(),
    source: z.string(),
    arrived: z.string(),
    startup: z.number().nullable(),
    number: z.number().nullable(),
    bytes: z.string(),
  }),
})
export type ReadingExplained = z.infer<typeof ReadingExplained>
