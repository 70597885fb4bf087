import { type Signal, signal } from '@preact/signals'
import type { ReadingTuple } from '../../../hub/contract/reading.ts'
import { hubNowMs } from '../../hub-clock.ts'
import { channels, onReadings } from '../../notebook.ts'

/** One signal as the channel sent it. */
export interface Heard {
  id: number
  timeMs: number
  signal: number
}

const KEPT = 500

const heard = new Map<number, Signal<readonly Heard[]>>()
const marks = new Map<number, Signal<number>>()

/** The newest signals of a channel, rising in time. Every channel is listened to, so that four probes may settle at once. */
export function heardOf(channel: number): Signal<readonly Heard[]> {
  let list = heard.get(channel)
  if (!list) {
    const latest = channels.peek().get(channel)?.latest
    list = signal<readonly Heard[]>(latest ? [heardIn(latest)] : [])
    heard.set(channel, list)
  }
  return list
}

/** Signals before this moment, UTC ms by the hub's clock, belong to an earlier hold. */
export function markOf(channel: number): Signal<number> {
  let mark = marks.get(channel)
  if (!mark) {
    mark = signal(0)
    marks.set(channel, mark)
  }
  return mark
}

/** A new hold begins: the probe was moved. */
export function holdAnew(channel: number): void {
  markOf(channel).value = hubNowMs()
}

function heardIn([id, , timeMs, sent]: ReadingTuple): Heard {
  return { id, timeMs, signal: sent }
}

/** What comes late from a board's memory is put where it belongs in time; what came before is left out. */
export function withHeard(list: readonly Heard[], fresh: readonly Heard[]): readonly Heard[] {
  const last = list.at(-1)
  // nearly always: one more
  if (last && fresh.length === 1 && fresh[0]!.timeMs > last.timeMs) return [...list, fresh[0]!].slice(-KEPT)
  const known = new Set(list.map(({ id }) => id))
  const added = fresh.filter(({ id }) => !known.has(id))
  if (added.length === 0) return list
  return [...list, ...added].sort((one, other) => one.timeMs - other.timeMs).slice(-KEPT)
}

onReadings((rows) => {
  for (const channel of new Set(rows.map(([, channel]) => channel))) {
    const list = heardOf(channel)
    list.value = withHeard(list.peek(), rows.filter((row) => row[1] === channel).map(heardIn))
  }
})
