import { join } from 'node:path'
import Database from 'better-sqlite3'
import fc from 'fast-check'
import { afterEach, describe, expect, test } from 'vitest'
import { appraiseWith } from '../../../hub/intake/appraise.ts'
import { reviewWith } from '../../../hub/quality/review.ts'
import type { ReadingRow } from '../../../hub/store/store.ts'
import { addClockCorrection, removeClockCorrection } from '../../../hub/survey/clock-corrections.ts'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'
import { SmallHub } from '../../support/small-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'

const MINUTE = 60_000
const HOUR = 3_600_000
const DAY = 24 * HOUR

/** One message of a thermometer: readings from a second after nine on, in equal steps. */
interface Sent {
  fromSeconds: number
  everySeconds: number
  celsius: number[]
}

type Move =
  | { do: 'send'; sent: Sent }
  | { do: 'seal' | 'review' | 'recompute some' | 'roll some' | 'roll all' }
  | { do: 'recalibrate'; offset: number }
  | { do: 'limits'; suspectDifference: number | 'off' }
  | { do: 'clock'; isAtOnce: boolean; fromSeconds: number; offsetSeconds: number }
  | { do: 'clock back' }

const celsius = fc.oneof(
  { weight: 8, arbitrary: fc.integer({ min: 0, max: 480 }).map((n) => n / 16) },
  // the code of a thermometer that is not connected, far out of range, and a spike
  { weight: 1, arbitrary: fc.constantFrom(-127, 300, 45) },
)
const sent = fc.record({
  fromSeconds: fc.integer({ min: 0, max: 20_000 }),
  everySeconds: fc.constantFrom(1, 7, 60, 500),
  celsius: fc.array(celsius, { minLength: 1, maxLength: 25 }),
})
const move: fc.Arbitrary<Move> = fc.oneof(
  { weight: 8, arbitrary: sent.map((sent): Move => ({ do: 'send', sent })) },
  {
    weight: 8,
    arbitrary: fc
      .constantFrom('seal', 'review', 'recompute some', 'roll some', 'roll all')
      .map((name): Move => ({ do: name as 'seal' })),
  },
  {
    weight: 1,
    arbitrary: fc.integer({ min: -4, max: 4 }).map((offset): Move => ({ do: 'recalibrate', offset })),
  },
  {
    weight: 1,
    arbitrary: fc
      .constantFrom<number | 'off'>(0.5, 3, 'off')
      .map((suspectDifference): Move => ({ do: 'limits', suspectDifference })),
  },
  {
    weight: 3,
    arbitrary: fc.record({
      do: fc.constant('clock' as const),
      isAtOnce: fc.boolean(),
      fromSeconds: fc.integer({ min: 0, max: 20_000 }),
      offsetSeconds: fc.constantFrom(-5000, 90, 3600),
    }),
  },
  { weight: 1, arbitrary: fc.constant<Move>({ do: 'clock back' }) },
)

const at = (seconds: number) => new Date(nineOClock + seconds * 1000).toISOString()

class MovingHub {
  readonly folder = temporaryFolder()
  readonly hub = new SmallHub(this.folder)
  readonly #rows = new Database(join(this.folder, 'readings.sqlite'), { readonly: true })
  #messages = 0

  constructor() {
    this.hub.keeper.save(exampleSurvey(), 'begin')
    this.send({ fromSeconds: 0, everySeconds: 1, celsius: [12] })
  }

  send({ fromSeconds, everySeconds, celsius }: Sent): void {
    const times = celsius.map((_, n) => nineOClock / 1000 + fromSeconds + n * everySeconds)
    this.hub.send(times.at(-1)! * 1000, [
      { bn: 'sedge-1/', n: 'startup', v: 1 },
      { n: 'message', v: ++this.#messages },
      ...celsius.map((v, n) => ({ n: 'temperature', u: 'Cel', v, t: times[n]! })),
    ])
  }

  make(move: Move): unknown {
    const { hub } = this
    const { writer, keeper } = hub
    switch (move.do) {
      case 'send':
        return this.send(move.sent)
      case 'seal':
        return writer.seal()
      case 'review':
        return writer.reviewSome(reviewWith(keeper.timelines))
      case 'recompute some':
        return (
          writer.reclockSome(keeper.clockWork) ?? writer.recomputeSome(appraiseWith(keeper.timelines), 20)
        )
      case 'roll some':
        return writer.rollSome(true)
      case 'roll all':
        return hub.roll()
      case 'recalibrate':
        return keeper.change('example', 'recalibrated', (survey) => ({
          ...survey,
          calibrations: survey.calibrations.map((each) =>
            each.id === 'temp-cal-1'
              ? { ...each, recipe: { kind: 'digital-temperature' as const, offsetCelsius: move.offset } }
              : each,
          ),
        }))
      case 'limits': {
        const { suspectDifference } = move
        const limits =
          suspectDifference === 'off'
            ? ('off' as const)
            : { differenceIs: 'absolute', suspectDifference, failDifference: 6 }
        return keeper.change('example', 'limits', (survey) => ({
          ...survey,
          quality: { spike: { soil_temperature: limits } },
        }))
      }
      case 'clock': {
        if (this.#corrections().length > 0) return null
        const { fromSeconds, offsetSeconds } = move
        const wish = { board: 'sedge-1', from: at(fromSeconds), to: at(fromSeconds + 4000) }
        if (move.isAtOnce) hub.roll()
        keeper.change(
          'example',
          'clock',
          (survey) =>
            addClockCorrection(survey, { ...wish, offsetSeconds, reason: 'was off' }, nineOClock).survey,
        )
        return move.isAtOnce && writer.reclockSome(keeper.clockWork)
      }
      case 'clock back': {
        const [correction] = this.#corrections()
        if (!correction) return null
        return keeper.change('example', 'clock back', (survey) =>
          removeClockCorrection(survey, correction.id),
        )
      }
    }
  }

  #corrections() {
    return this.hub.keeper.timelines.surveys[0]!.clockCorrections ?? []
  }

  /** Every reading, straight from the two tables they are in. */
  rows(): ReadingRow[] {
    return this.#rows
      .prepare(
        `SELECT t_ms AS timeMs, * FROM reading UNION ALL SELECT t_ms AS timeMs, * FROM inbox ORDER BY t_ms, id`,
      )
      .all() as ReadingRow[]
  }

  close(): void {
    this.#rows.close()
    this.hub.close()
  }
}

interface Asked {
  fromMs: number
  toMs: number
  steps: number
}

/** What a chart is to show, worked out reading by reading. */
function plainSeries(all: readonly ReadingRow[], { fromMs, toMs, steps }: Asked) {
  const rows = all.filter(({ timeMs }) => timeMs >= fromMs && timeMs < toMs)
  if (rows.length <= steps) return rows.map((row) => ({ n: 1, low: row.value, flag: row.flag }))
  const levelMs = [HOUR, 10 * MINUTE, MINUTE, 1].find((ms) => (toMs - fromMs) / steps >= ms)!
  const originMs = Math.floor(fromMs / levelMs) * levelMs
  const stepMs = Math.ceil((toMs - originMs) / steps / levelMs) * levelMs
  const buckets = new Map<number, ReadingRow[]>()
  for (const row of rows) {
    const bucket = Math.floor((row.timeMs - originMs) / stepMs)
    buckets.set(bucket, [...(buckets.get(bucket) ?? []), row])
  }
  return [...buckets.entries()].map(([bucket, rows]) => {
    const beginsMs = originMs + bucket * stepMs
    const values = rows.flatMap(({ value, flag }) => (value === null || flag === 4 ? [] : [value]))
    const uncertainties = rows.flatMap(({ uncertainty }) => uncertainty ?? [])
    const ranks = rows.map(({ flag }) => (flag === 2 ? 0 : flag))
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length
    return {
      n: rows.length,
      timeMs: (Math.max(beginsMs, fromMs) + Math.min(beginsMs + stepMs, toMs)) / 2,
      low: values.length === 0 ? null : Math.min(...values),
      mean: values.length === 0 ? null : expect.closeTo(mean, 9),
      high: values.length === 0 ? null : Math.max(...values),
      uncertainty: uncertainties.length === 0 ? null : Math.max(...uncertainties),
      flag: Math.max(...ranks) === 0 ? 2 : Math.max(...ranks),
    }
  })
}

function readSeries({ hub }: MovingHub, { fromMs, toMs, steps }: Asked) {
  const series = hub.reader.series(1, fromMs, toMs, steps)
  return series.count.map((n, place) =>
    series.id[place] === null
      ? {
          n,
          timeMs: series.timeMs[place],
          low: series.low[place],
          mean: series.mean[place],
          high: series.high[place],
          uncertainty: series.uncertainty[place],
          flag: series.flag[place],
        }
      : { n, low: series.low[place], flag: series.flag[place] },
  )
}

function plainReasons(rows: readonly ReadingRow[], acceptSuspect: boolean): Record<string, number> {
  const counts: Record<string, number> = {}
  for (const { value, flag, why } of rows) {
    const isClean = value !== null && (flag === 1 || flag === 2 || (flag === 3 && acceptSuspect))
    const reason = isClean ? 'clean' : why === null ? 'no value' : JSON.parse(why)[0].test
    counts[reason] = (counts[reason] ?? 0) + 1
  }
  return counts
}

function plainPauses(times: readonly number[], longestMs: number) {
  return times.flatMap((toMs, n) =>
    n > 0 && toMs - times[n - 1]! > longestMs ? [{ fromMs: times[n - 1]!, toMs }] : [],
  )
}

const open: MovingHub[] = []
afterEach(() => {
  for (const hub of open.splice(0)) hub.close()
})
function movingHub(): MovingHub {
  const hub = new MovingHub()
  open.push(hub)
  return hub
}

describe('rollups', () => {
  test('whatever happens between, series and counts are those that all readings give one by one', () => {
    const asked = fc
      .record({
        fromMs: fc.integer({ min: -2 * HOUR, max: 6 * HOUR }),
        lengthMs: fc.integer({ min: 1000, max: 12 * HOUR }),
        steps: fc.constantFrom(2, 3, 5, 9, 40),
        longestMs: fc.constantFrom(1000, 20_000, 10 * MINUTE),
      })
      .map(({ fromMs, lengthMs, steps, longestMs }) => ({
        fromMs: nineOClock + fromMs,
        toMs: nineOClock + fromMs + lengthMs,
        steps,
        longestMs,
      }))
    fc.assert(
      fc.property(
        fc.array(fc.record({ moves: fc.array(move, { minLength: 1, maxLength: 8 }), asked }), {
          minLength: 1,
          maxLength: 8,
        }),
        (rounds) => {
          const moving = new MovingHub()
          try {
            for (const { moves, asked } of rounds) {
              for (const each of moves) moving.make(each)
              const rows = moving.rows()
              expect(readSeries(moving, asked)).toEqual(plainSeries(rows, asked))
              const { fromMs, toMs, longestMs } = asked
              const within = rows.filter(({ timeMs }) => timeMs >= fromMs && timeMs < toMs)
              const counts = moving.hub.reader.counts()
              for (const accept of [false, true])
                expect(Object.fromEntries(counts.countByReason(1, fromMs, toMs, accept))).toEqual(
                  plainReasons(within, accept),
                )
              expect(counts.count(1, fromMs, toMs)).toEqual({
                received: within.length,
                firstMs: within[0]?.timeMs ?? null,
                lastMs: within.at(-1)?.timeMs ?? null,
              })
              const times = within.map(({ timeMs }) => timeMs)
              expect(counts.pauses(1, fromMs, toMs, longestMs)).toEqual(plainPauses(times, longestMs))
            }
          } finally {
            moving.close()
          }
        },
      ),
      { numRuns: 60 },
    )
  }, 120_000)

  test('once rolled, a long series is read from rollups alone', () => {
    const moving = movingHub()
    for (let hour = 0; hour < 30; hour++)
      moving.send({ fromSeconds: hour * 3600, everySeconds: 60, celsius: Array(60).fill(10 + hour) })
    moving.make({ do: 'seal' })
    moving.make({ do: 'roll all' })
    const raw = new Database(join(moving.folder, 'readings.sqlite'))
    expect(raw.prepare('SELECT count(*) FROM unrolled').pluck().get()).toBe(0)
    // a lie that only somebody who reads the hours can believe
    raw.exec('UPDATE rollup SET high = 99 WHERE level_ms = 3600000')
    raw.close()
    const { high } = moving.hub.reader.series(1, nineOClock, nineOClock + 30 * HOUR, 10)
    expect(high).toEqual(Array(10).fill(99))
  })

  test('readings that come late make only their own hour be read one by one', () => {
    const moving = movingHub()
    moving.send({ fromSeconds: 0, everySeconds: 600, celsius: Array(24).fill(12) })
    moving.make({ do: 'seal' })
    moving.make({ do: 'roll all' })
    moving.send({ fromSeconds: 5 * 3600, everySeconds: 1, celsius: [12] })
    moving.send({ fromSeconds: 3700, everySeconds: 1, celsius: [12, 12] })
    moving.make({ do: 'seal' })
    const raw = new Database(join(moving.folder, 'readings.sqlite'), { readonly: true })
    const marks = raw.prepare('SELECT from_ms, to_ms FROM unrolled ORDER BY 1').raw().all()
    raw.close()
    expect(marks).toEqual([
      [nineOClock + HOUR + MINUTE, nineOClock + 3_701_000],
      [nineOClock + 5 * HOUR, nineOClock + 5 * HOUR],
    ])
  })

  test('a file from before there were rollups is rolled afterwards, and shows the same before and after', () => {
    const moving = movingHub()
    moving.send({ fromSeconds: 0, everySeconds: 60, celsius: Array(600).fill(12.5) })
    moving.make({ do: 'seal' })
    const raw = new Database(join(moving.folder, 'readings.sqlite'))
    raw.exec(
      `DROP TABLE rollup; DROP TABLE unrolled; DROP INDEX message_with_impossible_time;
       CREATE INDEX message_of_board ON message (board, first_ms); PRAGMA user_version = 5`,
    )
    raw.close()
    const asked = { fromMs: nineOClock - HOUR, toMs: nineOClock + DAY, steps: 20 }
    const upgraded = new SmallHub(moving.folder)
    const series = () => upgraded.reader.series(1, asked.fromMs, asked.toMs, asked.steps)
    const before = series()
    expect(before.count.reduce((sum, n) => sum + n)).toBe(601)
    upgraded.roll()
    expect(series()).toEqual(before)
    upgraded.close()
  })

  test('a step of rolling is small, and what is left of a span goes on with the next one', () => {
    const moving = movingHub()
    for (let message = 0; message < 60; message++)
      moving.send({ fromSeconds: message * 500, everySeconds: 1, celsius: Array(500).fill(12) })
    moving.make({ do: 'seal' })
    const steps: number[] = []
    for (;;) {
      const step = moving.hub.writer.rollSome(true)
      if (step === null) break
      steps.push(step.rows)
    }
    expect(Math.max(...steps)).toBeLessThanOrEqual(10_000)
    // minutes that two steps share are counted in both
    expect(steps.length).toBeGreaterThanOrEqual(4)
    const { count } = moving.hub.reader.series(1, nineOClock, nineOClock + 9 * HOUR, 9)
    expect(count.reduce((sum, n) => sum + n)).toBe(30_001)
  })
})
