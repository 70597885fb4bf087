import type { Flag, FlagReason } from '../contract/flag.ts'
import type { Archive, ChannelNamed, ReadingInSeries, Review } from '../store/store.ts'
import type { Segment, Timelines } from '../survey/timeline.ts'
import { aggregateReasons, reasonsText } from './aggregate-flags.ts'
import type { QualityTest, SeriesTraits } from './quality-test.ts'
import { settingOf } from './settings.ts'
import { surroundingsOf } from './surroundings.ts'
import { QUALITY_TESTS } from './tests.ts'

const names = new Set(QUALITY_TESTS.map((test) => test.name))

/**
 * Runs every quality test of series that is on for a quantity, and puts its findings beside what was found when each
 * reading arrived. Depends on nothing but the readings, the surveys and what the archive holds.
 */
export function reviewWith(timelines: Timelines): Review {
  return {
    contextMs(channel, fromMs, toMs) {
      let beforeMs = 0
      let afterMs = 0
      for (const segment of timelines.of(channel.board, channel.channel)) {
        if (segment.fromMs > toMs || segment.toMs <= fromMs) continue
        const traits = traitsOf(channel, segment)
        for (const { test, config } of testsFor(segment)) {
          const contextMs = test.contextMs(config, traits)
          beforeMs = Math.max(beforeMs, contextMs)
          afterMs = Math.max(afterMs, test.looksAheadMs?.(config, traits) ?? contextMs)
        }
      }
      return { beforeMs, afterMs }
    },
    run(channel, readings, archive) {
      const judged: { flag: Flag; why: string | null }[] = new Array(readings.length)
      for (const { segment, from, to } of stretches(timelines, channel, readings)) {
        const found = findings(timelines, channel, segment, readings.slice(from, to), archive)
        for (let place = from; place < to; place++)
          judged[place] = judge(readings[place]!, found[place - from]!)
      }
      return judged
    },
  }
}

interface Stretch {
  /** null: no probe was connected */
  segment: Segment | null
  from: number
  /** exclusive */
  to: number
}

/** Cuts readings where probe or quadrat change; a new calibration or a decision by hand cuts nothing. */
function* stretches(
  timelines: Timelines,
  channel: ChannelNamed,
  readings: readonly ReadingInSeries[],
): Generator<Stretch> {
  let from = 0
  let present: Segment | null = null
  for (let place = 0; place <= readings.length; place++) {
    const reading = readings[place]
    const segment = reading ? timelines.at(channel.board, channel.channel, reading.timeMs) : null
    const isSame = reading !== undefined && place > from && standOf(segment) === standOf(present)
    if (place > from && !isSame) {
      yield { segment: present, from, to: place }
      from = place
    }
    present = segment
  }
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

function findings(
  timelines: Timelines,
  channel: ChannelNamed,
  segment: Segment | null,
  readings: readonly ReadingInSeries[],
  archive: Archive,
): FlagReason[][] {
  const reasons = readings.map((): FlagReason[] => [])
  if (!segment) return reasons
  const series = {
    ...traitsOf(channel, segment),
    timeMs: readings.map(({ timeMs }) => timeMs),
    value: readings.map(({ value }) => value),
    signal: readings.map(({ signal }) => signal),
  }
  const around = surroundingsOf(
    timelines,
    archive,
    channel.board,
    segment,
    series.timeMs[0]!,
    series.timeMs.at(-1)!,
  )
  for (const { test, config } of testsFor(segment))
    for (const [place, finding] of test.run(series, config, around).entries())
      if (finding !== null && finding !== 'not evaluated') reasons[place]!.push(finding)
  return reasons
}

/** What was found on arrival stays; what the tests of series found before is replaced. */
function judge(reading: ReadingInSeries, found: readonly FlagReason[]): { flag: Flag; why: string | null } {
  const before = reading.why === null ? [] : (JSON.parse(reading.why) as FlagReason[])
  const reasons = [...before.filter(({ test }) => !names.has(test)), ...found]
  return { flag: aggregateReasons(reasons, reading.value !== null), why: reasonsText(reasons) }
}
