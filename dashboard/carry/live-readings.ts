import { type Signal, signal } from '@preact/signals'
import type { ReadingTuple } from '../../hub/contract/reading.ts'
import type { Probe } from '../../hub/contract/survey.ts'
import { hubNowMs } from '../hub-clock.ts'
import { channelList, onReadings } from '../notebook.ts'
import type { LiveReading } from './held-window.ts'

/** Enough for the longest hold at one reading a second. */
const KEPT = 600

const heard = new Map<number, Signal<readonly LiveReading[]>>()
const arrivals = new Map<number, number>()

/** The newest readings of a channel, rising in time. */
export function readingsOf(channel: number): Signal<readonly LiveReading[]> {
  let list = heard.get(channel)
  if (!list) {
    const latest = channelList.peek().find(({ id }) => id === channel)?.latest
    list = signal<readonly LiveReading[]>(latest ? [readingIn(latest)] : [])
    heard.set(channel, list)
    arrivals.set(channel, hubNowMs())
  }
  return list
}

/** When the last reading of a channel came in, hub time; a board’s own clock has no say in it. */
export function arrivedMs(channel: number): number {
  return arrivals.get(channel) ?? 0
}

/** The channel a probe is heard on; null while nothing has come from it. */
export function channelOf(probe: Probe) {
  return (
    channelList.value.find(({ board, channel }) => board === probe.board && channel === probe.channel) ?? null
  )
}

/** A board that was away sends what it kept: each reading is put where it belongs in time, once. */
export function withReadings(
  list: readonly LiveReading[],
  fresh: readonly LiveReading[],
): readonly LiveReading[] {
  const known = new Set(list.map(({ id }) => id))
  const added = fresh.filter(({ id }) => !known.has(id))
  if (added.length === 0) return list
  return [...list, ...added].sort((one, other) => one.timeMs - other.timeMs).slice(-KEPT)
}

function readingIn([id, , timeMs, sent, value, uncertainty, flag]: ReadingTuple): LiveReading {
  return { id, timeMs, signal: sent, value, uncertainty, flag }
}

onReadings((rows) => {
  for (const [channel, list] of heard) {
    const fresh = rows.filter((row) => row[1] === channel)
    if (fresh.length === 0) continue
    arrivals.set(channel, hubNowMs())
    list.value = withReadings(list.peek(), fresh.map(readingIn))
  }
})
