import { z } from 'zod'
import { ReadingTuple } from './reading.ts'

/**
 * Events of `/api/stream` (server-sent events). `id:` of an event is the cursor: a browser that comes back with
 * `Last-Event-ID` is sent every reading it missed, or `resync` when that would be too many.
 */
export const StreamReadings = z.object({ nowMs: z.number(), rows: z.array(ReadingTuple) })
export type StreamReadings = z.infer<typeof StreamReadings>

/** The body of every other event. */
export const StreamNews = z.object({ nowMs: z.number(), changes: z.number().int() })
export type StreamNews = z.infer<typeof StreamNews>
