import type { FlagReason } from '../contract/flag.ts'
import { quantityFacts } from '../contract/quantity-facts.ts'
import type { ChannelNow } from '../contract/reading.ts'
import type { BoardNow } from '../contract/status.ts'
import { TYPED_BOARD } from '../contract/wire-names.ts'
import type { SqliteReader } from '../store/sqlite-reader.ts'
import type { Timelines } from '../survey/timeline.ts'
import type { HubState } from './desk.ts'
import { asTuple } from './live-stream.ts'

/** Every channel heard so far: what it is at `nowMs`, and its newest reading. */
export function channelsNow(reader: SqliteReader, timelines: Timelines, nowMs: number): ChannelNow[] {
  const latest = new Map(reader.latest().map((row) => [row.channel, row]))
  const firstTimes = reader.firstTimes()
  return reader.channels().map(({ id, board, name, unit }) => {
    const segment = timelines.at(board, name, nowMs)
    const newest = latest.get(id) ?? null
    return {
      id,
      board,
      channel: name,
      signalUnit: unit,
      survey: segment?.survey.id ?? null,
      probe: segment?.probe.id ?? null,
      quantity: segment?.probe.quantity ?? null,
      method: segment?.probe.method ?? null,
      quadrat: segment?.quadrat?.label ?? null,
      transect: segment?.quadrat?.transect ?? null,
      distanceMetres: segment?.quadrat?.distanceMetres ?? null,
      calibration: segment?.calibration?.id ?? null,
      verdict: segment?.calibration?.fitted.verdict ?? null,
      valueUnit: segment
        ? (segment.calibration?.fitted.unit ?? quantityFacts(segment.probe.quantity)?.unit ?? null)
        : null,
      firstMs: firstTimes.get(id) ?? null,
      expectedIntervalSeconds:
        segment?.survey.boards.find((setting) => setting.name === board)?.sampleIntervalSeconds ?? null,
      latest: newest === null ? null : asTuple(newest),
      why: newest?.why ? (JSON.parse(newest.why) as FlagReason[]) : [],
    }
  })
}

/** Every board that was heard or is expected. One none of whose channels belongs to a probe is waiting to be placed. */
export function boardsNow(
  reader: SqliteReader,
  timelines: Timelines,
  channels: readonly ChannelNow[],
  state: HubState,
): BoardNow[] {
  const heard = new Map(reader.boards().map((board) => [board.name, board]))
  const withKey = new Set(state.boardsWithKey)
  const seen = new Map(state.boards.map((board) => [board.name, board]))
  const expected = timelines.surveys.flatMap((survey) => survey.boards.map((board) => board.name))
  const placed = new Set(channels.filter((channel) => channel.probe !== null).map((channel) => channel.board))
  const names = [...new Set([...heard.keys(), ...seen.keys(), ...expected])]
    .filter((name) => name !== TYPED_BOARD)
    .sort()
  return names.map((name) => {
    const stored = heard.get(name)
    const now = seen.get(name)
    const newest = channels.reduce(
      (latest, channel) => (channel.board === name ? Math.max(latest, channel.latest?.[2] ?? 0) : latest),
      0,
    )
    return {
      name,
      firstHeardMs: stored?.firstHeardMs ?? null,
      lastHeardMs: now?.lastHeardMs || newest || null,
      source: now?.source ?? null,
      link: now?.link ?? null,
      startup: now?.startup ?? null,
      messages: now?.messages ?? 0,
      missed: now?.missed ?? 0,
      about: stored?.about ?? null,
      trouble: now?.trouble ?? null,
      hasKey: withKey.has(name),
      isWaiting: !placed.has(name) && (stored !== undefined || now !== undefined),
    }
  })
}
