import type { SurveyFile } from '../contract/survey.ts'
import type { TrapNow, TrapWeather } from '../contract/trap.ts'
import { calibratedAt } from '../survey/field/calibrated-at.ts'
import type { CompletenessFacts } from '../survey/field/completeness.ts'
import type { BoardFacts } from '../survey/field/departure-boards.ts'
import { silentBoards } from '../survey/field/silent-boards.ts'
import {
  countStanding,
  longestPauseMs,
  type StandingSpan,
  type StoredSpan,
  standingSpans,
} from '../survey/field/standing-spans.ts'
import { trapNow } from '../survey/field/trap-now.ts'
import { spotValues } from '../survey/spot-values.ts'
import { boardsNow, channelsNow } from './directory.ts'
import type { PageSide } from './page-side.ts'

const HOUR_MS = 3_600_000
const BATTERY = /batt|volt|supply|^vcc$|^vin$/i

/** What is known of boards and channels at this moment, for the pages of the field. */
export function heardNow(side: PageSide) {
  const channels = channelsNow(side.reader, side.timelines(), side.nowMs())
  return { channels, boards: boardsNow(side.reader, side.timelines(), channels, side.state()) }
}
type Heard = ReturnType<typeof heardNow>

/** Everything that completeness rests on, gathered from the store. */
export function completenessFacts(
  side: PageSide,
  survey: SurveyFile,
  { channels, boards }: Heard,
): CompletenessFacts {
  const nowMs = side.nowMs()
  const timelines = side.timelines()
  const field = side.reader.field()
  const pending = field.clocksPending()
  const silent = new Set(silentBoards(survey, timelines, lastHeard(boards), nowMs).map(({ board }) => board))
  const probes = new Map(survey.probes.map((probe) => [probe.id, probe]))
  const troubles = new Map<string, boolean>()
  const standing = standingSpans(survey, timelines, nowMs).map((span) => {
    const interval = survey.boards.find(({ name }) => name === span.board)?.sampleIntervalSeconds
    const ofIt = channels.filter(({ board, channel }) => board === span.board && channel === span.channel)
    const stored = storedSpan(
      side,
      span,
      ofIt.map(({ id }) => id),
      longestPauseMs(interval),
    )
    const newest = ofIt.find(({ latest }) => span.isThere && latest !== null && latest[2] >= span.fromMs)
    return {
      quadrat: span.quadrat,
      fromMs: span.fromMs,
      atMs: stored.lastMs ?? span.toMs - 1,
      count: countStanding(span, stored, interval, silent.has(span.board)),
      last: newest?.latest
        ? {
            value: newest.latest[4],
            unit: newest.valueUnit ?? '',
            timeMs: newest.latest[2],
            flag: newest.latest[6],
            why: newest.why[0]?.text ?? null,
          }
        : null,
    }
  })
  return {
    survey,
    nowMs,
    spots: spotValues(side.reader, timelines, survey.id),
    standing,
    loss: boards
      .filter(({ name }) => survey.boards.some((board) => board.name === name))
      .map(({ name, messages, missed }) => ({
        board: name,
        messages,
        missed,
        share: missed / Math.max(1, messages + missed),
      })),
    calibrated: (id, atMs) => calibratedAt(survey, timelines, probes.get(id)!, atMs),
    boardOf: (id) => probes.get(id)?.board,
    hasClockTrouble: (board, fromMs, toMs) => {
      const key = `${board} ${fromMs} ${toMs}`
      const known = troubles.get(key) ?? field.hasImpossibleClock(board, fromMs, toMs)
      troubles.set(key, known)
      return known
    },
    isClockPending: (board) => pending.has(board),
  }
}

function storedSpan(
  side: PageSide,
  span: StandingSpan,
  ids: readonly number[],
  longestMs: number,
): StoredSpan {
  const stored = side.reader.counts()
  const counts = ids.map((id) => stored.count(id, span.fromMs, span.toMs))
  const filled = counts.filter(({ received }) => received > 0)
  // a sketch that changed its unit has two channels of one name; its pauses are those of the one it uses most
  const busiest = ids[counts.indexOf(counts.toSorted((one, other) => other.received - one.received)[0]!)]
  return {
    received: counts.reduce((sum, { received }) => sum + received, 0),
    firstMs: filled.length === 0 ? null : Math.min(...filled.map(({ firstMs }) => firstMs!)),
    lastMs: filled.length === 0 ? null : Math.max(...filled.map(({ lastMs }) => lastMs!)),
    pauses: busiest === undefined ? [] : stored.pauses(busiest, span.fromMs, span.toMs, longestMs),
  }
}

export function lastHeard(boards: Heard['boards']): Map<string, number | null> {
  return new Map(boards.map(({ name, lastHeardMs }) => [name, lastHeardMs]))
}

/** Coldest and warmest value of the survey’s own thermometers in the last hour, °C. */
export function weatherOf(
  side: PageSide,
  survey: SurveyFile,
  { channels }: Pick<Heard, 'channels'>,
): TrapWeather {
  const nowMs = side.nowMs()
  const said = channels
    .filter((channel) => channel.survey === survey.id && channel.valueUnit === 'Cel')
    .map(({ id }) => side.reader.field().extremes(id, nowMs - HOUR_MS, nowMs))
  const lowest = said.flatMap((each) => each.lowest ?? [])
  const highest = said.flatMap((each) => each.highest ?? [])
  return {
    coldestCelsius: lowest.length === 0 ? null : Math.min(...lowest),
    warmestCelsius: highest.length === 0 ? null : Math.max(...highest),
  }
}

export function trapsNow(side: PageSide, survey: SurveyFile, weather: TrapWeather): TrapNow[] {
  return (survey.traps ?? []).map((trap) => trapNow(trap, weather, side.nowMs()))
}

/** The boards of a survey as they must be looked at before they go out. */
export function boardFacts(side: PageSide, survey: SurveyFile, { channels, boards }: Heard): BoardFacts[] {
  const nowMs = side.nowMs()
  const field = side.reader.field()
  const names = new Set([
    ...survey.boards.map(({ name }) => name),
    ...survey.probes.filter(({ isTyped }) => !isTyped).map(({ board }) => board),
  ])
  return [...names].sort().map((name) => {
    const now = boards.find((board) => board.name === name)
    const power = channels.find(
      ({ board, channel, latest }) => board === name && latest !== null && BATTERY.test(channel),
    )
    const lags = field.clockLags(name, nowMs - HOUR_MS)
    const own = lags.filter(({ origin }) => origin === 'board clock').map(({ lagMs }) => lagMs)
    return {
      board: name,
      lastHeardMs: now?.lastHeardMs ?? null,
      intervalSeconds: survey.boards.find((board) => board.name === name)?.sampleIntervalSeconds,
      messages: now?.messages ?? 0,
      missed: now?.missed ?? 0,
      trouble: now?.trouble ?? null,
      battery: power?.latest ? { signal: power.latest[3], unit: power.signalUnit } : null,
      // a message may come late, never early: the quickest tells how far the clocks are apart
      clockAheadSeconds: own.length === 0 ? null : -Math.min(...own) / 1000,
      hasImpossibleClock: lags.some(({ origin }) => origin === 'shifted to arrival'),
    }
  })
}
