import type { SqliteDatabase, SqliteStatement } from './open-database.ts'

export const MINUTE_MS = 60_000
export const HOUR_MS = 3_600_000

/** The spans that readings are rolled up to, the coarser first; each is a whole number of the next. */
export const LEVELS_MS = [HOUR_MS, 10 * MINUTE_MS, MINUTE_MS] as const

export interface TimeRange {
  fromMs: number
  /** exclusive */
  toMs: number
}

/** A piece of a span of time, and how it is to be read: by hours, by the finer levels, or (0) reading by reading. */
export interface Part extends TimeRange {
  levelMs: number
}

/** The next finer level, or 0: reading by reading. */
export function finerThan(levelMs: number): number {
  return LEVELS_MS.find((ms) => ms < levelMs) ?? 0
}

export function floorTo(stepMs: number, ms: number): number {
  return Math.floor(ms / stepMs) * stepMs
}

export function ceilTo(stepMs: number, ms: number): number {
  return Math.ceil(ms / stepMs) * stepMs
}

/** Tells where rollups stand for the sealed readings of a channel, and where the readings themselves must be read. */
export class RollupParts {
  readonly #unrolled: SqliteStatement

  constructor(database: SqliteDatabase) {
    this.#unrolled = database.prepare(
      `SELECT from_ms AS fromMs, to_ms + 1 AS toMs FROM unrolled
       WHERE channel = ? AND from_ms < ? AND to_ms >= ? ORDER BY from_ms`,
    )
  }

  /**
   * Cuts a span into parts, in time order and without a gap. To be read in the transaction it was asked in.
   * @param coarsestMs  nothing is read by a coarser level than this
   */
  of(channel: number, { fromMs, toMs }: TimeRange, coarsestMs: number = HOUR_MS): Part[] {
    if (fromMs >= toMs) return []
    const unrolled = this.#unrolled.all(channel, toMs, fromMs) as TimeRange[]
    return [...cut({ fromMs, toMs }, unrolled, coarsestMs)]
  }
}

function* cut(span: TimeRange, unrolled: readonly TimeRange[], levelMs: number): Generator<Part> {
  if (span.fromMs >= span.toMs) return
  if (levelMs === 0) {
    yield { levelMs, ...span }
    return
  }
  const finer = finerThan(levelMs)
  const first = ceilTo(levelMs, span.fromMs)
  const end = floorTo(levelMs, span.toMs)
  if (first >= end) {
    yield* cut(span, unrolled, finer)
    return
  }
  yield* cut({ fromMs: span.fromMs, toMs: first }, unrolled, finer)
  let reachedMs = first
  for (const stale of wholeBuckets(unrolled, levelMs, first, end)) {
    if (stale.fromMs > reachedMs) yield { levelMs, fromMs: reachedMs, toMs: stale.fromMs }
    yield* cut(stale, unrolled, finer)
    reachedMs = stale.toMs
  }
  if (reachedMs < end) yield { levelMs, fromMs: reachedMs, toMs: end }
  yield* cut({ fromMs: end, toMs: span.toMs }, unrolled, finer)
}

/** The minutes (or ten, or hours) that the spans touch, between two times, as spans without overlap. */
function wholeBuckets(
  spans: readonly TimeRange[],
  levelMs: number,
  firstMs: number,
  endMs: number,
): TimeRange[] {
  const buckets: TimeRange[] = []
  for (const span of spans) {
    const fromMs = Math.max(firstMs, floorTo(levelMs, span.fromMs))
    const toMs = Math.min(endMs, ceilTo(levelMs, span.toMs))
    if (fromMs >= toMs) continue
    const last = buckets.at(-1)
    if (last && fromMs <= last.toMs) last.toMs = Math.max(last.toMs, toMs)
    else buckets.push({ fromMs, toMs })
  }
  return buckets
}
