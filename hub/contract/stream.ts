import { z } from 'zod'
import { ReadingTuple } from './reading.ts'

/**
 * Events of `/api/stream` (server-sent events). `id:` of an event is the cursor: a browser that comes back with
 * `Last-Event-ID` is sent every reading it missed, or `resync` when that would be too many.
 */
export const StreamReadings = z.object({ nowMs: z.number(), rows: z.array(ReadingTuple) })
export type StreamReadings = z.infer<typeof StreamReadings>

/**
 * `event:` names. All but `readings` mean: fetch that part anew. They carry the number of changes so far, which goes up by
 * one with each of {@link changeEvents}: a page that finds a gap has missed one, and fetches everything anew. The first
 * event on a new line is a `pulse`, so that it is found at once.
 */
export const streamEvents = [
  'readings',
  'directory',
  'surveys',
  'spots',
  'recomputed',
  'resync',
  'pulse',
] as const
export type StreamEvent = (typeof streamEvents)[number]

export const StreamNews = z.object({ nowMs: z.number(), changes: z.number().int() })
export type StreamNews = z.infer<typeof StreamNews>

export const changeEvents: readonly StreamEvent[] = ['surveys', 'spots', 'recomputed']
