import type { Flag, FlagReason } from '../contract/flag.ts'
import type { Archive, ChannelNamed, Reach, ReadingInSeries, Review, SeriesColumns } from '../store/store.ts'
import type { Segment, Timelines } from '../survey/timeline.ts'
import { aggregateReasons, reasonsText } from './aggregate-flags.ts'
import { type Context, NO_CONTEXT, type QualityTest, type SeriesTraits } from './quality-test.ts'
import { settingOf } from './settings.ts'
import { Others } from './surroundings.ts'
import { QUALITY_TESTS } from './tests.ts'
import { longestStepMs } from './unbroken.ts'

const names = new Set(QUALITY_TESTS.map((test) => test.name))

/**
 * Runs every quality test of series that is on for a quantity, and puts its findings beside what was found when each
 * reading arrived. Depends on nothing but the readings, the surveys and what the archive holds.
 */
export function reviewWith(timelines: Timelines): Review {
  return {
    reach(channel, fromMs, toMs) {
      const before = { ms: 0, readings: 0, mostMs: 0 }
      const after = { ms: 0, readings: 0, mostMs: 0 }
      for (const segment of timelines.of(channel.board, channel.channel)) {
        if (segment.fromMs > toMs || segment.toMs <= fromMs) continue
        const stepMs = longestStepMs(traitsOf(channel, segment).expectedIntervalMs)
        for (const { test, config } of testsFor(segment)) {
          const context = test.context(config)
          extend(before, context, stepMs)
          if (!test.looksBackOnly) extend(after, context, stepMs)
        }
      }
      return { before, after }
    },
    run(channel, readings, first, judged, archive) {
      const found: { flag: Flag; why: string | null }[] = []
      for (const stretch of stretches(timelines, channel, readings.timeMs)) {
        const from = Math.max(stretch.from, first)
        const to = Math.min(stretch.to, first + judged.length)
        if (from >= to) continue
        const reasons = findings(timelines, channel, stretch, readings, archive, { from, to })
        for (let place = from; place < to; place++)
          found.push(judge(judged[place - first]!, reasons[place - from]!))
      }
      return found
    },
  }
}

function extend(reach: Reach, { ms, readings }: Context, stepMs: number): void {
  reach.ms = Math.max(reach.ms, ms)
  reach.readings = Math.max(reach.readings, readings)
  reach.mostMs = Math.max(reach.mostMs, ms + 2 * readings * stepMs)
}

interface Stretch {
  /** null: no probe was connected */
  segment: Segment | null
  from: number
  /** exclusive */
  to: number
}

/** Cuts readings where probe or quadrat change; a new calibration or a decision by hand cuts nothing. */
function stretches(timelines: Timelines, channel: ChannelNamed, times: readonly number[]): Stretch[] {
  const segments = timelines.of(channel.board, channel.channel)
  const found: Stretch[] = []
  for (let from = 0; from < times.length; ) {
    const timeMs = times[from]!
    const segment = timelines.at(channel.board, channel.channel, timeMs)
    const endMs = segment?.toMs ?? segments.find(({ fromMs }) => fromMs > timeMs)?.fromMs ?? Infinity
    const to = firstAt(times, endMs, from)
    const last = found.at(-1)
    if (last && standOf(last.segment) === standOf(segment)) last.to = to
    else found.push({ segment, from, to })
    from = to
  }
  return found
}

/** The place of the first reading at or after a time, from `from` on. */
function firstAt(times: readonly number[], timeMs: number, from = 0): number {
  let low = from
  let high = times.length
  while (low < high) {
    const middle = (low + high) >> 1
    if (times[middle]! < timeMs) low = middle + 1
    else high = middle
  }
  return low
}

function standOf(segment: Segment | null): string {
  return segment ? `${segment.survey.id}\n${segment.probe.id}\n${segment.quadrat?.label ?? ''}` : ''
}

function testsFor(segment: Segment): { test: QualityTest<unknown>; config: unknown }[] {
  return QUALITY_TESTS.flatMap((test) => {
    const config = settingOf(test as QualityTest<unknown>, segment.survey, segment.probe.quantity)
    return config === null ? [] : [{ test: test as QualityTest<unknown>, config }]
  })
}

function traitsOf(channel: ChannelNamed, { survey, probe }: Segment): SeriesTraits {
  const seconds = survey.boards.find(({ name }) => name === channel.board)?.sampleIntervalSeconds
  return {
    quantity: probe.quantity,
    signalUnit: channel.unit,
    expectedIntervalMs: seconds === undefined ? null : seconds * 1000,
  }
}

/** For the readings from `from` to before `to`; each test sees of the others as much as its findings can depend on. */
function findings(
  timelines: Timelines,
  channel: ChannelNamed,
  stretch: Stretch,
  readings: SeriesColumns,
  archive: Archive,
  { from, to }: { from: number; to: number },
): FlagReason[][] {
  const reasons = Array.from({ length: to - from }, (): FlagReason[] => [])
  const { segment } = stretch
  if (!segment) return reasons
  const traits = traitsOf(channel, segment)
  const around = new Others(timelines, archive, channel.board, segment)
  for (const { test, config } of testsFor(segment)) {
    const own = test.asksOthersOnly ? NO_CONTEXT : test.context(config)
    const ahead = test.looksBackOnly ? NO_CONTEXT : own
    const { timeMs } = readings
    const nearest = Math.max(stretch.from, from - own.readings)
    const first = Math.max(stretch.from, firstAt(timeMs, timeMs[nearest]! - own.ms) - own.readings)
    const last = Math.min(stretch.to, to + ahead.readings) - 1
    const end = Math.min(stretch.to, firstAt(timeMs, timeMs[last]! + ahead.ms + 1, last) + ahead.readings)
    const series = {
      ...traits,
      timeMs: readings.timeMs.slice(first, end),
      value: readings.value.slice(first, end),
      signal: readings.signal.slice(first, end),
    }
    const whole = { fromMs: series.timeMs[0]!, toMs: series.timeMs.at(-1)! }
    const asked = test.asksAboutJudged ? { fromMs: timeMs[from]!, toMs: timeMs[to - 1]! } : whole
    const judged = { from: from - first, to: to - first }
    const found = test.run(series, config, around.during(whole, asked), judged)
    for (let place = from; place < to; place++) {
      const finding = found[place - first]
      if (finding && finding !== 'not evaluated') reasons[place - from]!.push(finding)
    }
  }
  return reasons
}

/** What was found on arrival stays; what the tests of series found before is replaced. */
function judge(reading: ReadingInSeries, found: readonly FlagReason[]): { flag: Flag; why: string | null } {
  const before = reading.why === null ? [] : (JSON.parse(reading.why) as FlagReason[])
  const reasons = [...before.filter(({ test }) => !names.has(test)), ...found]
  return { flag: aggregateReasons(reasons, reading.value !== null), why: reasonsText(reasons) }
}
