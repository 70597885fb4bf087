import type { SqliteDatabase } from './open-database.ts'
import { floorTo, HOUR_MS } from './rollup-parts.ts'

/** A stretch of a channel's readings in the inbox; both ends are readings. */
export interface InboxSpan {
  channel: number
  fromMs: number
  toMs: number
}

/**
 * Which stretches of time the readings in the inbox are of, kept while they come: asking the inbox for them would sort it
 * once more.
 */
export class InboxSpans {
  readonly #database: SqliteDatabase
  /** by channel and hour, so that a late reading does not stretch a span over all that lies between */
  readonly #hours = new Map<number, { hourMs: number; span: InboxSpan }[]>()

  constructor(database: SqliteDatabase) {
    this.#database = database
    this.reload()
  }

  add(channel: number, timeMs: number): void {
    const hourMs = floorTo(HOUR_MS, timeMs)
    let hours = this.#hours.get(channel)
    if (!hours) {
      hours = []
      this.#hours.set(channel, hours)
    }
    const newest = hours.at(-1)
    const found = newest?.hourMs === hourMs ? newest : hours.find((hour) => hour.hourMs === hourMs)
    if (!found) {
      hours.push({ hourMs, span: { channel, fromMs: timeMs, toMs: timeMs } })
      return
    }
    if (timeMs < found.span.fromMs) found.span.fromMs = timeMs
    if (timeMs > found.span.toMs) found.span.toMs = timeMs
  }

  clear(): void {
    this.#hours.clear()
  }

  /** Reads them from the inbox: at the start, and after a transaction that came to nothing. */
  reload(): void {
    this.clear()
    const rows = this.#database.prepare('SELECT channel, t_ms FROM inbox').raw().all() as [number, number][]
    for (const [channel, timeMs] of rows) this.add(channel, timeMs)
  }

  /** At most one of each hour of a channel; by channel. */
  ofHours(): InboxSpan[] {
    return this.#channels().flatMap((hours) => hours.map(({ span }) => span))
  }

  /** One of each channel. */
  ofChannels(): InboxSpan[] {
    return this.#channels().map((hours) => ({
      channel: hours[0]!.span.channel,
      fromMs: Math.min(...hours.map(({ span }) => span.fromMs)),
      toMs: Math.max(...hours.map(({ span }) => span.toMs)),
    }))
  }

  #channels() {
    return [...this.#hours].sort(([one], [other]) => one - other).map(([, hours]) => hours)
  }
}
