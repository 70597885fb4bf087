import type { SqliteDatabase, SqliteStatement } from './open-database.ts'
import { ceilTo, floorTo, LEVELS_MS, type Part, RollupParts } from './rollup-parts.ts'
import type { ReadingRow } from './store.ts'

/** Readings of one channel in equal steps of time; null where a step has none. */
export interface Series {
  timeMs: number[]
  low: (number | null)[]
  mean: (number | null)[]
  high: (number | null)[]
  uncertainty: (number | null)[]
  /** the worst flag of the step */
  flag: number[]
  count: number[]
  id: (number | null)[]
}

/** What the readings of one step come to. */
interface Step {
  step: number
  n: number
  valued: number
  sum: number
  low: number | null
  high: number | null
  uncertainty: number | null
  worst: number
}

/** Reads series for charts: a long one from the rollups of hours and minutes, wherever these are up to date. */
export class SeriesReader {
  readonly #database: SqliteDatabase
  readonly #parts: RollupParts
  readonly #sql: ReturnType<typeof prepare>

  constructor(database: SqliteDatabase) {
    this.#database = database
    this.#parts = new RollupParts(database)
    this.#sql = prepare(database)
  }

  /**
   * @param toMs  exclusive
   * @param steps at most this many points; with fewer readings than that each is a point of its own. Steps of a minute
   * or more are whole minutes, of ten minutes or more whole tens of them, of an hour or more whole hours.
   */
  series(channel: number, fromMs: number, toMs: number, steps: number): Series {
    const single = this.#sql.readings.all(channel, fromMs, toMs, steps + 1) as ReadingRow[]
    if (single.length <= steps) return eachReading(single)
    const level = LEVELS_MS.find((ms) => (toMs - fromMs) / steps >= ms) ?? 0
    const originMs = floorTo(level || 1, fromMs)
    const stepMs = ceilTo(level || 1, Math.max(1, (toMs - originMs) / steps))
    // one transaction: nothing moves from the inbox to its place between two queries
    const found = this.#database.transaction(() => [
      ...this.#parts
        .of(channel, { fromMs, toMs }, level)
        .flatMap((part) => this.#stepsOf(part, channel, originMs, stepMs)),
      ...this.#sql.inbox.all({ channel, fromMs, toMs, originMs, stepMs }),
    ])() as Step[]
    return inSteps(joined(found), { fromMs, toMs }, originMs, stepMs)
  }

  #stepsOf({ levelMs, fromMs, toMs }: Part, channel: number, originMs: number, stepMs: number): unknown[] {
    const span = { channel, fromMs, toMs, originMs, stepMs }
    return levelMs === 0 ? this.#sql.sealed.all(span) : this.#sql.rolled.all({ levelMs, ...span })
  }
}

function emptySeries(): Series {
  return { timeMs: [], low: [], mean: [], high: [], uncertainty: [], flag: [], count: [], id: [] }
}

function eachReading(rows: readonly ReadingRow[]): Series {
  const series = emptySeries()
  for (const row of rows) {
    series.timeMs.push(row.timeMs)
    for (const list of [series.low, series.mean, series.high]) list.push(row.value)
    series.uncertainty.push(row.uncertainty)
    series.flag.push(row.flag)
    series.count.push(1)
    series.id.push(row.id)
  }
  return series
}

/** Parts of one step put together; in order of time. */
function joined(found: readonly Step[]): Step[] {
  const steps = new Map<number, Step>()
  for (const part of found) {
    const step = steps.get(part.step)
    if (!step) {
      steps.set(part.step, part)
      continue
    }
    step.n += part.n
    step.valued += part.valued
    step.sum += part.sum
    step.low = best(Math.min, step.low, part.low)
    step.high = best(Math.max, step.high, part.high)
    step.uncertainty = best(Math.max, step.uncertainty, part.uncertainty)
    step.worst = Math.max(step.worst, part.worst)
  }
  return [...steps.values()].sort((a, b) => a.step - b.step)
}

function best(of: (a: number, b: number) => number, a: number | null, b: number | null): number | null {
  return a === null ? b : b === null ? a : of(a, b)
}

function inSteps(
  steps: readonly Step[],
  span: { fromMs: number; toMs: number },
  originMs: number,
  stepMs: number,
): Series {
  const series = emptySeries()
  for (const { step, n, valued, sum, low, high, uncertainty, worst } of steps) {
    const beginsMs = originMs + step * stepMs
    // the middle of as much of the step as was asked for: series that follow one another stay in order of time
    series.timeMs.push((Math.max(beginsMs, span.fromMs) + Math.min(beginsMs + stepMs, span.toMs)) / 2)
    series.low.push(low)
    series.mean.push(valued === 0 ? null : sum / valued)
    series.high.push(high)
    series.uncertainty.push(uncertainty)
    series.flag.push(worst === 0 ? 2 : worst)
    series.count.push(n)
    series.id.push(null)
  }
  return series
}

function prepare(database: SqliteDatabase) {
  const sql = (text: string): SqliteStatement => database.prepare(text)
  const SPAN = 'channel = @channel AND t_ms >= @fromMs AND t_ms < @toMs'
  const STEP = 'CAST((t_ms - @originMs) / @stepMs AS INTEGER) AS step'
  const fromReadings = (table: string) =>
    sql(
      `SELECT ${STEP}, count(*) AS n, count(value) FILTER (WHERE flag <> 4) AS valued,
              total(value) FILTER (WHERE flag <> 4) AS sum,
              min(value) FILTER (WHERE flag <> 4) AS low, max(value) FILTER (WHERE flag <> 4) AS high,
              max(uncertainty) AS uncertainty, max(CASE flag WHEN 2 THEN 0 ELSE flag END) AS worst
       FROM ${table} WHERE ${SPAN} GROUP BY step`,
    )
  return {
    readings: sql(
      `SELECT channel, t_ms AS timeMs, id, signal, value, uncertainty, flag, calibration, why
       FROM every_reading WHERE channel = ? AND t_ms >= ? AND t_ms < ? ORDER BY t_ms, id LIMIT ?`,
    ),
    sealed: fromReadings('reading'),
    inbox: fromReadings('inbox'),
    rolled: sql(
      `SELECT ${STEP}, sum(n) AS n, sum(valued) AS valued, total(sum) AS sum, min(low) AS low, max(high) AS high,
              max(uncertainty) AS uncertainty, max(worst) AS worst
       FROM rollup WHERE level_ms = @levelMs AND ${SPAN} GROUP BY step`,
    ),
  }
}
