import { CLEAN_ROW, NO_VALUE } from '../quality/clean.ts'
import type { SqliteDatabase, SqliteStatement } from './open-database.ts'
import { finerThan, type Part, RollupParts, type TimeRange } from './rollup-parts.ts'

export interface CountedSpan {
  received: number
  firstMs: number | null
  lastMs: number | null
}

/** Counts readings over spans of any length, by rollup wherever these are up to date. */
export class ReadingCounts {
  readonly #database: SqliteDatabase
  readonly #parts: RollupParts
  readonly #sql: ReturnType<typeof prepare>

  constructor(database: SqliteDatabase) {
    this.#database = database
    this.#parts = new RollupParts(database)
    this.#sql = prepare(database)
  }

  /** Readings of a channel in a span, the first and the last; `toMs` is exclusive, both ends may be infinite. */
  count(channel: number, fromMs: number, toMs: number): CountedSpan {
    const span = inCalendar(fromMs, toMs)
    return this.#atOnce(() => {
      let { received, firstMs, lastMs } = this.#sql.ofInbox.get({ channel, ...span }) as CountedSpan
      for (const part of this.#parts.of(channel, span)) received += this.#countPart(channel, part)
      const first = this.#sql.first.get({ channel, ...span }) as number | undefined
      const last = this.#sql.last.get({ channel, ...span }) as number | undefined
      if (first !== undefined) firstMs = Math.min(first, firstMs ?? first)
      if (last !== undefined) lastMs = Math.max(last, lastMs ?? last)
      return { received, firstMs, lastMs }
    })
  }

  #countPart(channel: number, { levelMs, fromMs, toMs }: Part): number {
    return (
      levelMs === 0
        ? this.#sql.sealed.get({ channel, fromMs, toMs })
        : this.#sql.rolled.get({ levelMs, channel, fromMs, toMs })
    ) as number
  }

  /** How many readings of a span are clean, and for the others how many by each test; ends as for {@link count}. */
  countByReason(channel: number, fromMs: number, toMs: number, acceptSuspect: boolean): Map<string, number> {
    const accept = acceptSuspect ? 1 : 0
    const span = inCalendar(fromMs, toMs)
    return this.#atOnce(() => {
      const counts = new Map<string, number>()
      for (const part of this.#parts.of(channel, span)) this.#addReasons(channel, part, accept, counts)
      addAll(counts, this.#sql.reasonsOfInbox.all({ channel, ...span, acceptSuspect: accept }))
      return counts
    })
  }

  /** Where every reading of an hour or minute is clean, counting them is enough; the others are looked at more closely. */
  #addReasons(channel: number, part: Part, accept: number, counts: Map<string, number>): void {
    const { levelMs, fromMs, toMs } = part
    if (levelMs === 0) {
      addAll(counts, this.#sql.reasons.all({ channel, fromMs, toMs, acceptSuspect: accept }))
      return
    }
    const n = this.#sql.cleanBuckets.get({ channel, ...part, accept }) as number
    if (n > 0) addAll(counts, [{ reason: 'clean', n }])
    const mixed: Part[] = []
    for (const beginsMs of this.#sql.mixedBuckets.all({ channel, ...part, accept }) as number[]) {
      const last = mixed.at(-1)
      if (last?.toMs === beginsMs) last.toMs += levelMs
      else mixed.push({ levelMs: finerThan(levelMs), fromMs: beginsMs, toMs: beginsMs + levelMs })
    }
    for (const part of mixed) this.#addReasons(channel, part, accept, counts)
  }

  /** Every pause longer than `longestMs` between two readings of a channel, in time order. */
  pauses(channel: number, fromMs: number, toMs: number, longestMs: number): TimeRange[] {
    const span = inCalendar(fromMs, toMs)
    const runs = this.#atOnce(() => [
      ...this.#parts.of(channel, span).flatMap((part) => this.#runs(channel, part, longestMs)),
      ...(this.#sql.timesInInbox.all({ channel, ...span }) as number[]).map((ms): Run => [ms, ms]),
    ])
    runs.sort(([a], [b]) => a - b)
    const pauses: TimeRange[] = []
    let reachedMs = runs[0]?.[0] ?? 0
    for (const [firstMs, lastMs] of runs) {
      if (firstMs - reachedMs > longestMs) pauses.push({ fromMs: reachedMs, toMs: firstMs })
      reachedMs = Math.max(reachedMs, lastMs)
    }
    return pauses
  }

  /** Runs of sealed readings with no longer pause in them; one reading may be a run. */
  #runs(channel: number, part: Part, longestMs: number): Run[] {
    const { levelMs, fromMs, toMs } = part
    if (levelMs === 0)
      return (this.#sql.times.all({ channel, fromMs, toMs }) as number[]).map((ms) => [ms, ms])
    const buckets = this.#sql.buckets.all({ channel, ...part }) as [number, number, number, number][]
    return buckets.flatMap(([beginsMs, firstMs, lastMs, pauseMs]) => {
      if (pauseMs <= longestMs) return [[firstMs, lastMs] as Run]
      const closer: Part = { levelMs: finerThan(levelMs), fromMs: beginsMs, toMs: beginsMs + levelMs }
      return this.#runs(channel, closer, longestMs)
    })
  }

  /** In one transaction, so that nothing moves from the inbox to its place between two queries. */
  #atOnce<T>(work: () => T): T {
    return this.#database.transaction(work)()
  }
}

function addAll(counts: Map<string, number>, rows: unknown[]): void {
  for (const { reason, n } of rows as { reason: string; n: number }[])
    counts.set(reason, (counts.get(reason) ?? 0) + n)
}

/** first and last time, ms */
type Run = [number, number]

/** Endless spans end where a calendar does: an INTEGER column holds no infinity. */
function inCalendar(fromMs: number, toMs: number): TimeRange {
  return { fromMs: Math.max(fromMs, -8.64e15), toMs: Math.min(toMs, 8.64e15) }
}

function prepare(database: SqliteDatabase) {
  const sql = (text: string): SqliteStatement => database.prepare(text)
  const SPAN = 'channel = @channel AND t_ms >= @fromMs AND t_ms < @toMs'
  const ROLLED = `FROM rollup WHERE level_ms = @levelMs AND ${SPAN}`
  const IS_CLEAN = 'n = clean + CASE WHEN @accept THEN suspect ELSE 0 END'
  const reasonsFrom = (table: string) =>
    sql(
      `SELECT CASE WHEN ${CLEAN_ROW} THEN 'clean' ELSE coalesce(json_extract(why, '$[0].test'), '${NO_VALUE}') END AS reason,
              count(*) AS n
       FROM ${table} WHERE ${SPAN} GROUP BY reason`,
    )
  return {
    ofInbox: sql(
      `SELECT count(*) AS received, min(t_ms) AS firstMs, max(t_ms) AS lastMs FROM inbox WHERE ${SPAN}`,
    ),
    sealed: sql(`SELECT count(*) FROM reading WHERE ${SPAN}`).pluck(),
    rolled: sql(`SELECT coalesce(sum(n), 0) ${ROLLED}`).pluck(),
    first: sql(`SELECT t_ms FROM reading WHERE ${SPAN} ORDER BY t_ms LIMIT 1`).pluck(),
    last: sql(`SELECT t_ms FROM reading WHERE ${SPAN} ORDER BY t_ms DESC LIMIT 1`).pluck(),
    reasons: reasonsFrom('reading'),
    reasonsOfInbox: reasonsFrom('inbox'),
    cleanBuckets: sql(`SELECT coalesce(sum(n), 0) ${ROLLED} AND ${IS_CLEAN}`).pluck(),
    mixedBuckets: sql(`SELECT t_ms ${ROLLED} AND NOT (${IS_CLEAN}) ORDER BY t_ms`).pluck(),
    times: sql(`SELECT t_ms FROM reading WHERE ${SPAN} ORDER BY t_ms`).pluck(),
    timesInInbox: sql(`SELECT t_ms FROM inbox WHERE ${SPAN}`).pluck(),
    buckets: sql(`SELECT t_ms, first_ms, last_ms, pause_ms ${ROLLED} ORDER BY t_ms`).raw(),
  }
}
