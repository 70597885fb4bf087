import type { InboxSpan } from './inbox-spans.ts'
import type { SqliteDatabase, SqliteStatement } from './open-database.ts'
import { ceilTo, floorTo, LEVELS_MS, MINUTE_MS } from './rollup-parts.ts'

/** Marks looked at for one step; what is left is for the next. */
const MARKS = 500
/** A chart reads so many readings in the time of a blink, so until then rollups may wait. */
const ENOUGH_READINGS = 100_000
/** Every round writes a page for each channel: so rarely, an SD card does not notice. */
const ROUND_EVERY_MS = 300_000

interface Mark {
  channel: number
  from_ms: number
  to_ms: number
}

/**
 * Keeps the rollups of minutes, ten minutes and hours. Whoever changes readings marks their span in the same transaction; now and
 * then a round works off all marks: five minutes after the last one, or when many readings have changed since.
 */
export class Rolling {
  readonly #database: SqliteDatabase
  readonly #sql: ReturnType<typeof prepare>
  readonly #nowMs: () => number
  #isRound = false
  #lastRoundMs = -Infinity
  #changed = 0

  /** @param nowMs  of a clock that only runs forward */
  constructor(database: SqliteDatabase, nowMs: () => number = () => performance.now()) {
    this.#database = database
    this.#sql = prepare(database)
    this.#nowMs = nowMs
  }

  /** Within the transaction that seals the inbox. */
  markInbox(spans: readonly InboxSpan[], readings: number): void {
    for (const { channel, fromMs, toMs } of spans) this.mark(channel, fromMs, toMs, 0)
    this.#changed += readings
  }

  /** Within the transaction that changes readings from `fromMs` to `toMs`, both included. */
  mark(channel: number, fromMs: number, toMs: number, readings: number): void {
    this.#sql.mark.run(channel, floorTo(MINUTE_MS, fromMs), toMs)
    this.#changed += readings
  }

  /**
   * Brings rollups of up to so many readings up to date (and of a minute at least).
   * @param isWorthIt  begins a round whether or not it is time for one
   * @returns null when nothing is due
   */
  some(isWorthIt: boolean, atMost: number): { rows: number } | null {
    if (!this.#isRound && !isWorthIt && !this.#isTime()) return null
    const marks = this.#sql.marks.all(MARKS) as Mark[]
    if (marks.length === 0) {
      this.#isRound = false
      return null
    }
    if (!this.#isRound) {
      this.#isRound = true
      this.#lastRoundMs = this.#nowMs()
      this.#changed = 0
    }
    let rows = 0
    this.#database
      .transaction(() => {
        for (const span of merged(marks)) {
          rows += this.#roll(span, atMost - rows)
          if (rows >= atMost) break
        }
      })
      .immediate()
    return { rows }
  }

  #isTime(): boolean {
    return this.#changed >= ENOUGH_READINGS || this.#nowMs() - this.#lastRoundMs >= ROUND_EVERY_MS
  }

  /** Rolls the beginning of a span: whole minutes, up to `rows` readings or one minute. @returns how many readings */
  #roll({ channel, from_ms: fromMs, to_ms: lastMs }: Mark, rows: number): number {
    const next = this.#sql.timeAfter.get(channel, fromMs, rows) as number | undefined
    const toMs = Math.min(
      floorTo(MINUTE_MS, lastMs) + MINUTE_MS,
      Math.max(fromMs + MINUTE_MS, next === undefined ? Infinity : floorTo(MINUTE_MS, next)),
    )
    for (const [levelMs, roll] of this.#sql.roll) {
      const whole = { channel, fromMs: floorTo(levelMs, fromMs), toMs: ceilTo(levelMs, toMs) }
      this.#sql.clear.run({ levelMs, ...whole })
      roll.run(whole)
    }
    const restMs = this.#sql.lastMarked.get(channel, toMs) as number
    this.#sql.unmark.run(channel, toMs)
    if (restMs >= toMs) this.#sql.mark.run(channel, toMs, restMs)
    return this.#sql.rolled.get({ channel, fromMs, toMs }) as number
  }
}

/** Marks of one channel that touch or follow within a minute, as one. */
function merged(marks: readonly Mark[]): Mark[] {
  const spans: Mark[] = []
  for (const mark of marks) {
    const last = spans.at(-1)
    if (last?.channel === mark.channel && mark.from_ms <= last.to_ms + MINUTE_MS)
      last.to_ms = Math.max(last.to_ms, mark.to_ms)
    else spans.push({ ...mark })
  }
  return spans
}

/** When the span of a level that a time lies in begins, before 1970 too. */
const beginning = (levelMs: number) => `t_ms - (t_ms % ${levelMs} + ${levelMs}) % ${levelMs}`

function prepare(database: SqliteDatabase) {
  const sql = (text: string): SqliteStatement => database.prepare(text)
  const mark = 'ON CONFLICT (channel, from_ms) DO UPDATE SET to_ms = max(to_ms, excluded.to_ms)'
  const minutes = sql(
    `INSERT INTO rollup
       SELECT ${MINUTE_MS}, channel, minute, count(*),
              count(*) FILTER (WHERE value IS NOT NULL AND flag IN (1, 2)),
              count(*) FILTER (WHERE value IS NOT NULL AND flag = 3),
              count(value) FILTER (WHERE flag <> 4), total(value) FILTER (WHERE flag <> 4),
              min(value) FILTER (WHERE flag <> 4), max(value) FILTER (WHERE flag <> 4), max(uncertainty),
              max(CASE flag WHEN 2 THEN 0 ELSE flag END), min(t_ms), max(t_ms),
              coalesce(max(t_ms - before) FILTER (WHERE before >= minute), 0)
       FROM (SELECT *, ${beginning(MINUTE_MS)} AS minute, lag(t_ms) OVER (ORDER BY t_ms) AS before
             FROM reading WHERE channel = @channel AND t_ms >= @fromMs AND t_ms < @toMs)
       GROUP BY minute`,
  )
  const fromMinutes = (levelMs: number) =>
    sql(
      `INSERT INTO rollup
       SELECT ${levelMs}, channel, bucket, sum(n), sum(clean), sum(suspect), sum(valued), total(sum), min(low), max(high),
              max(uncertainty), max(worst), min(first_ms), max(last_ms),
              max(max(pause_ms), coalesce(max(first_ms - before) FILTER (WHERE before >= bucket), 0))
       FROM (SELECT *, ${beginning(levelMs)} AS bucket, lag(last_ms) OVER (ORDER BY t_ms) AS before
             FROM rollup WHERE level_ms = ${MINUTE_MS} AND channel = @channel AND t_ms >= @fromMs AND t_ms < @toMs)
       GROUP BY bucket`,
    )
  return {
    // by the hour, so that one late reading does not mark all the time between it and now
    mark: sql(`INSERT INTO unrolled VALUES (?, ?, ?) ${mark}`),
    marks: sql('SELECT channel, from_ms, to_ms FROM unrolled ORDER BY channel, from_ms LIMIT ?'),
    lastMarked: sql('SELECT max(to_ms) FROM unrolled WHERE channel = ? AND from_ms < ?').pluck(),
    unmark: sql('DELETE FROM unrolled WHERE channel = ? AND from_ms < ?'),
    timeAfter: sql(
      'SELECT t_ms FROM reading WHERE channel = ? AND t_ms >= ? ORDER BY t_ms LIMIT 1 OFFSET CAST(? AS INTEGER)',
    ).pluck(),
    clear: sql(
      'DELETE FROM rollup WHERE level_ms = @levelMs AND channel = @channel AND t_ms >= @fromMs AND t_ms < @toMs',
    ),
    /** how each level is made, the minutes first: the others are made of them */
    roll: [
      [MINUTE_MS, minutes] as const,
      ...LEVELS_MS.filter((ms) => ms > MINUTE_MS).map((ms) => [ms, fromMinutes(ms)] as const),
    ],
    rolled: sql(
      `SELECT coalesce(sum(n), 0) FROM rollup
       WHERE level_ms = ${MINUTE_MS} AND channel = @channel AND t_ms >= @fromMs AND t_ms < @toMs`,
    ).pluck(),
  }
}
