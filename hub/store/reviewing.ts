import type { SqliteDatabase } from './open-database.ts'
import type { Rolling } from './rolling.ts'
import { ceilTo, floorTo } from './rollup-parts.ts'
import type { Archive, Reach, ReadingInSeries, Review, SeriesColumns } from './store.ts'

/** Context beyond this many readings on a side is left out: tests then see a shorter past, never a wrong one. */
const CONTEXT_ROWS = 20_000

/**
 * So many times in a row a long span of one channel is gone on with, because its past is at hand; then others have their
 * turn, while what was read of their neighbours still is.
 */
const ROUNDS = 10

/** Of other channels no more than this is read ahead. */
const AHEAD_AT_MOST_MS = 10_800_000
/** So many values of other channels are remembered, 16 bytes each. */
const KNOWN_ROWS = 1_000_000
const KNOWN_STEP_MS = 120_000
/** Of one channel so many spans: what is under review, and what a test compares it with. */
const KNOWN_SPANS = 2

interface KnownValues {
  fromMs: number
  toMs: number
  timeMs: number[]
  value: number[]
}

interface ReviewJob {
  id: number
  channel: number
  board: string
  name: string
  unit: string
  from_ms: number
  from_id: number
  to_ms: number
  is_rest: 0 | 1
}

/** What was last read of the channel under review; what comes next can look back on it. */
interface Trail {
  channel: number
  /** the last that was reviewed */
  lastId: number
  readings: SeriesColumns
  /** up to it and no further */
  end: number
}

type Span = Pick<ReviewJob, 'id' | 'from_ms' | 'to_ms'>

/** Runs the quality tests of series over the spans that are due, and writes down the flags that come out differently. */
export class Reviewing {
  readonly #database: SqliteDatabase
  readonly #rolling: Rolling
  readonly #sql: ReturnType<typeof prepare>
  /** what was read of other channels: of many that are reviewed one after the other, each asks for the same */
  readonly #known = new Map<string, KnownValues[]>()
  #knownRows = 0
  #trail: Trail | null = null
  #rounds = 0
  /** of a span longer than one step, how long the steps to come are likely to be, ms */
  #aheadMs = 0

  constructor(database: SqliteDatabase, rolling: Rolling) {
    this.#database = database
    this.#rolling = rolling
    this.#sql = prepare(database)
  }

  /** Reviews spans in one transaction, up to so many readings of one or, where they are short, of several. */
  some(review: Review, atMost: number): { changed: number; isLast: boolean } | null {
    let job = this.#sql.nextJob.get() as ReviewJob | undefined
    if (!job) return null
    let changed = 0
    this.#database
      .transaction(() => {
        for (let rows = 0; job && rows < atMost; job = this.#sql.nextJob.get() as ReviewJob | undefined) {
          const done = this.#one(job, review, atMost)
          rows += done.rows
          changed += done.changed
        }
      })
      .immediate()
    return { changed, isLast: job === undefined }
  }

  #one(job: ReviewJob, review: Review, atMost: number): { rows: number; changed: number } {
    const { board, name, unit, channel } = job
    const named = { board, channel: name, unit }
    let span = { fromMs: job.from_ms, toMs: job.to_ms }
    if (!job.is_rest) {
      const { before, after } = review.reach(named, job.from_ms, job.to_ms)
      this.#takeInThoseBeside(job, before.ms + after.ms)
      span = this.#widened(job, review)
    }
    const { fromMs, toMs } = span
    // what is judged may reach into other placements than the span itself, under other tests
    const { before, after } = review.reach(named, fromMs, toMs)
    const main = this.#sql.readings.all(channel, fromMs, job.from_id, toMs, atMost) as ReadingInSeries[]
    const first = main[0]
    const last = main.at(-1)
    let changed = 0
    let rows = 1
    if (first && last) {
      const readings = this.#pastOf(job, first, this.#firstMs(channel, first.timeMs, before))
      const past = readings.timeMs.length
      for (const { timeMs, signal, value } of main) addTo(readings, timeMs, signal, value)
      const endMs = this.#lastMs(channel, last.timeMs, after)
      const later = this.#sql.after.all(channel, last.timeMs, last.id, endMs) as ContextRow[]
      for (const row of later) addTo(readings, ...row)
      const aheadMs = Math.min(
        (ROUNDS - 1) * (last.timeMs - first.timeMs),
        toMs - last.timeMs,
        AHEAD_AT_MOST_MS,
      )
      this.#aheadMs = main.length === atMost ? aheadMs : 0
      const findings = review.run(named, readings, past, main, this.#archive)
      changed = this.#write(channel, main, findings)
      rows = readings.timeMs.length
      this.#trail = { channel, lastId: last.id, readings, end: past + main.length }
    }
    const isMore = last !== undefined && main.length === atMost
    if (isMore && ++this.#rounds < ROUNDS) this.#sql.goOn.run(last.timeMs, last.id + 1, toMs, job.id)
    else {
      this.#rounds = 0
      this.#trail = null
      this.#sql.endJob.run(job.id)
      if (isMore) this.#sql.addRest.run(channel, last.timeMs, last.id + 1, toMs)
    }
    return { rows, changed }
  }

  /** The span whose findings may come out differently: readings before it may look ahead into it, and those after it look back. */
  #widened({ board, name, unit, channel, from_ms, to_ms }: ReviewJob, review: Review) {
    const { before, after } = review.reach({ board, channel: name, unit }, from_ms, to_ms)
    return { fromMs: this.#firstMs(channel, from_ms, after), toMs: this.#lastMs(channel, to_ms, before) }
  }

  /** When the first reading is that those from a time on can depend on. */
  #firstMs(channel: number, fromMs: number, { ms, readings, mostMs }: Reach): number {
    const further = (beforeMs: number) =>
      readings === 0
        ? beforeMs
        : ((this.#sql.furtherBack.get(channel, beforeMs, fromMs - mostMs, readings) as number | null) ??
          beforeMs)
    return further(further(fromMs) - ms)
  }

  /** When the last reading is that those up to a time can depend on. */
  #lastMs(channel: number, toMs: number, { ms, readings, mostMs }: Reach): number {
    const further = (afterMs: number) =>
      readings === 0
        ? afterMs
        : ((this.#sql.furtherOn.get(channel, afterMs, toMs + mostMs, readings) as number | null) ?? afterMs)
    return further(further(toMs) + ms)
  }

  /** The readings before those that are to be judged, from the first on that their tests look back to. */
  #pastOf({ channel, is_rest, from_id }: ReviewJob, first: ReadingInSeries, firstMs: number): SeriesColumns {
    const trail = this.#trail
    if (trail && is_rest && trail.channel === channel && from_id === trail.lastId + 1) {
      const { timeMs, signal, value } = trail.readings
      const within = timeMs.findIndex((ms) => ms >= firstMs)
      const from = Math.max(within, trail.end - CONTEXT_ROWS)
      const part = <T>(all: T[]) => (within === -1 ? [] : all.slice(from, trail.end))
      return { timeMs: part(timeMs), signal: part(signal), value: part(value) }
    }
    const before = this.#sql.before.all(channel, first.timeMs, first.id, firstMs) as ContextRow[]
    const past: SeriesColumns = { timeMs: [], signal: [], value: [] }
    for (const row of before.reverse()) addTo(past, ...row)
    return past
  }

  #remember(key: string, values: KnownValues): void {
    // what it contains is not needed any more, and of the others the oldest goes
    const before = this.#forgetChannel(key).filter(
      ({ fromMs, toMs }) => fromMs < values.fromMs || toMs > values.toMs,
    )
    const kept = [...before.slice(1 - KNOWN_SPANS), values]
    this.#known.set(key, kept)
    for (const { timeMs } of kept) this.#knownRows += timeMs.length
    for (const oldest of this.#known.keys()) {
      if (this.#knownRows <= KNOWN_ROWS || oldest === key) break
      this.#forgetChannel(oldest)
    }
  }

  #forgetChannel(key: string): KnownValues[] {
    const spans = this.#known.get(key) ?? []
    for (const { timeMs } of spans) this.#knownRows -= timeMs.length
    this.#known.delete(key)
    return spans
  }

  /** Of a backlog, many spans of a channel lie so close that each would review what the others do. */
  #takeInThoseBeside(job: ReviewJob, reachMs: number): void {
    const others = this.#sql.spansOf.all(job.channel, job.id) as Span[]
    for (let isMore = true; isMore; ) {
      isMore = false
      for (const [place, other] of others.entries()) {
        if (other.from_ms > job.to_ms + reachMs || other.to_ms < job.from_ms - reachMs) continue
        job.from_ms = Math.min(job.from_ms, other.from_ms)
        job.to_ms = Math.max(job.to_ms, other.to_ms)
        this.#sql.endJob.run(other.id)
        others.splice(place, 1)
        isMore = true
        break
      }
    }
  }

  /** Readings have come, moved or been given other values: what was read before is out of date. */
  forget(): void {
    this.#known.clear()
    this.#knownRows = 0
    this.#trail = null
  }

  #write(
    channel: number,
    main: readonly ReadingInSeries[],
    findings: readonly { flag: number; why: string | null }[],
  ): number {
    let changed = 0
    const reflagged: number[] = []
    for (const [place, reading] of main.entries()) {
      const { flag, why } = findings[place]!
      if (flag === reading.flag && why === reading.why) continue
      this.#sql.setFlag.run(flag, why, channel, reading.timeMs, reading.id)
      changed++
      if (flag !== reading.flag) reflagged.push(reading.timeMs)
    }
    if (reflagged.length > 0) this.#rolling.mark(channel, reflagged[0]!, reflagged.at(-1)!, reflagged.length)
    return changed
  }

  readonly #archive: Archive = {
    values: (board, channel, fromMs, toMs) => {
      const key = `${board}/${channel}`
      const known = this.#known.get(key)?.find((each) => each.fromMs <= fromMs && each.toMs >= toMs)
      if (known) return known
      // the next to ask will want a little more or less, and of a long span what follows
      const span = {
        fromMs: floorTo(KNOWN_STEP_MS, fromMs),
        toMs: ceilTo(KNOWN_STEP_MS, toMs + (this.#knownRows > KNOWN_ROWS / 2 ? 0 : this.#aheadMs)),
      }
      const rows = this.#sql.values.all(board, channel, span.fromMs, span.toMs) as [number, number][]
      const values = {
        ...span,
        timeMs: rows.map(([timeMs]) => timeMs),
        value: rows.map(([, value]) => value),
      }
      this.#remember(key, values)
      return values
    },
    restarts: (board, fromMs, toMs) => this.#sql.restarts.all(board, fromMs, toMs) as number[],
  }
}

/** time, signal, value */
type ContextRow = [number, number, number | null]

function addTo(readings: SeriesColumns, timeMs: number, signal: number, value: number | null): void {
  readings.timeMs.push(timeMs)
  readings.signal.push(signal)
  readings.value.push(value)
}

const READING = 't_ms AS timeMs, id, signal, value, flag, why'

function prepare(database: SqliteDatabase) {
  const sql = (text: string) => database.prepare(text)
  return {
    nextJob: sql(
      `SELECT review.id, review.channel, board.name AS board, channel.name, channel.unit,
              from_ms, from_id, to_ms, is_rest
       FROM review JOIN channel ON channel.id = review.channel JOIN board ON board.id = channel.board
       ORDER BY review.id LIMIT 1`,
    ),
    readings: sql(
      `SELECT ${READING} FROM reading WHERE channel = ? AND (t_ms, id) >= (?, ?) AND t_ms <= ? ORDER BY t_ms, id LIMIT ?`,
    ),
    furtherBack: sql(
      `SELECT min(t_ms) FROM (SELECT t_ms FROM reading WHERE channel = ? AND t_ms < ? AND t_ms >= ?
                              ORDER BY t_ms DESC LIMIT ?)`,
    ).pluck(),
    furtherOn: sql(
      `SELECT max(t_ms) FROM (SELECT t_ms FROM reading WHERE channel = ? AND t_ms > ? AND t_ms <= ?
                              ORDER BY t_ms LIMIT ?)`,
    ).pluck(),
    before: sql(
      `SELECT t_ms, signal, value FROM reading WHERE channel = ? AND (t_ms, id) < (?, ?) AND t_ms >= ?
       ORDER BY t_ms DESC, id DESC LIMIT ${CONTEXT_ROWS}`,
    ).raw(),
    after: sql(
      `SELECT t_ms, signal, value FROM reading WHERE channel = ? AND (t_ms, id) > (?, ?) AND t_ms <= ?
       ORDER BY t_ms, id LIMIT ${CONTEXT_ROWS}`,
    ).raw(),
    setFlag: sql('UPDATE reading SET flag = ?, why = ? WHERE channel = ? AND t_ms = ? AND id = ?'),
    spansOf: sql(
      'SELECT id, from_ms, to_ms FROM review WHERE channel = ? AND id <> ? AND is_rest = 0 ORDER BY from_ms',
    ),
    goOn: sql('UPDATE review SET from_ms = ?, from_id = ?, to_ms = ?, is_rest = 1 WHERE id = ?'),
    endJob: sql('DELETE FROM review WHERE id = ?'),
    addRest: sql('INSERT INTO review (channel, from_ms, from_id, to_ms, is_rest) VALUES (?, ?, ?, ?, 1)'),
    values: sql(
      `SELECT t_ms, value FROM reading
       WHERE channel IN (SELECT channel.id FROM channel JOIN board ON board.id = channel.board
                         WHERE board.name = ? AND channel.name = ?)
         AND t_ms BETWEEN ? AND ? AND value IS NOT NULL ORDER BY t_ms`,
    ).raw(),
    restarts: sql(
      `SELECT began_ms FROM start_up JOIN board ON board.id = start_up.board
       WHERE board.name = ? AND began_ms BETWEEN ? AND ? ORDER BY began_ms`,
    ).pluck(),
  }
}
