import type { ServerResponse } from 'node:http'
import type { ReadingTuple } from '../contract/reading.ts'
import type { StreamNews } from '../contract/stream.ts'
import { changeEvents, type StreamEvent } from '../contract/stream-events.ts'
import type { ReadingRow } from '../store/store.ts'
import { READINGS_PER_MESSAGE } from '../store/store.ts'

/** After silence a reading goes out at once; while more come, what gathers in this time goes out together. */
const BATCH_MS = 100
/** A page that has missed more messages than this is told to fetch everything anew. */
const MISSED_AT_MOST = 5000
/** A phone that takes this many bytes too slowly is let go; it comes back and resumes. */
const UNSENT_BYTES_AT_MOST = 2_000_000
const PULSE_MS = 10_000
/** …and so is one that has not caught up for so many pulses: it may not be reading at all. */
const PULSES_BEHIND_AT_MOST = 3

interface Listener {
  response: ServerResponse
  /** id of the last message whose readings it was sent */
  cursor: number
  /** pulses since it last had taken everything it was sent */
  behind: number
}

/** The readings a page missed; null when there are more than it makes sense to send. */
type ReadMissed = (afterMessage: number, atMost: number) => ReadingRow[] | null

/**
 * Sends each committed reading to every open page: one text for all of them, a few times a second. While no page is open,
 * nothing need be pushed; what was committed between a page's opening and the first push is read from the store.
 */
export class LiveStream {
  readonly #listeners = new Set<Listener>()
  readonly #nowMs: () => number
  readonly #readMissed: ReadMissed
  readonly #lastMessageId: () => number
  readonly #watched: (isWatched: boolean) => void
  #pending: ReadingRow[] = []
  #pendingLast = 0
  #flushedAt = 0
  #changes: number
  #timer: NodeJS.Timeout | undefined
  readonly #pulse: NodeJS.Timeout

  /** @param watched told when the first page opens and the last one goes */
  constructor(
    nowMs: () => number,
    lastMessageId: () => number,
    readMissed: ReadMissed,
    watched: (isWatched: boolean) => void = () => {},
  ) {
    this.#watched = watched
    this.#nowMs = nowMs
    // a page that knew an earlier run of the hub must find a gap
    this.#changes = Math.floor(nowMs())
    this.#lastMessageId = lastMessageId
    this.#readMissed = readMissed
    this.#pulse = setInterval(() => this.beat(), PULSE_MS)
  }

  /** changes told so far; where the count begins differs from run to run of the hub */
  get changes(): number {
    return this.#changes
  }

  get listeners(): number {
    return this.#listeners.size
  }

  /** @param since cursor of the last event the page saw, or null for “from now on” */
  open(response: ServerResponse, since: number | null): void {
    response.writeHead(200, {
      'content-type': 'text/event-stream; charset=utf-8',
      'cache-control': 'no-store',
      'x-accel-buffering': 'no',
    })
    const listener: Listener = { response, cursor: since ?? this.#lastMessageId(), behind: 0 }
    response.write('retry: 1000\n\n')
    response.write(event('pulse', null, this.#news()))
    if (since !== null) {
      const last = this.#lastMessageId()
      const missed = since > last ? null : this.#readMissed(since, MISSED_AT_MOST)
      listener.cursor = last
      this.#sendMissed(listener, missed, last)
    }
    this.#listeners.add(listener)
    if (this.#listeners.size === 1) this.#watched(true)
    const leave = () => {
      if (this.#listeners.delete(listener) && this.#listeners.size === 0) this.#watched(false)
    }
    response.on('close', leave)
    response.on('error', leave)
  }

  /** Takes what was just committed. */
  push(rows: readonly ReadingRow[], lastMessageId: number): void {
    // what was committed while nobody watched was never pushed: what waits is sent by itself, so that the gap is seen
    if (this.#pending.length > 0 && rows[0] && messageOf(rows[0]) !== this.#pendingLast + 1) this.#flush()
    for (const row of rows) this.#pending.push(row)
    this.#pendingLast = Math.max(this.#pendingLast, lastMessageId)
    if (this.#timer) return
    const waitMs = Math.max(0, this.#flushedAt + BATCH_MS - Date.now())
    if (waitMs === 0) this.#flush()
    else this.#timer = setTimeout(() => this.#flush(), waitMs)
  }

  /** Tells every page that a part of what it shows is out of date. */
  tell(name: Exclude<StreamEvent, 'readings'>): void {
    if (changeEvents.includes(name)) this.#changes++
    const bytes = Buffer.from(event(name, null, this.#news()))
    for (const listener of this.#listeners) this.#send(listener, bytes)
  }

  /** Tells every page that the hub is there, and lets go of those that do not listen. */
  beat(): void {
    for (const listener of this.#listeners) {
      listener.behind = listener.response.writableLength === 0 ? 0 : listener.behind + 1
      if (listener.behind > PULSES_BEHIND_AT_MOST) listener.response.destroy()
    }
    this.tell('pulse')
  }

  close(): void {
    clearInterval(this.#pulse)
    clearTimeout(this.#timer)
    for (const { response } of this.#listeners) response.end()
    this.#listeners.clear()
  }

  #flush(): void {
    clearTimeout(this.#timer)
    this.#timer = undefined
    this.#flushedAt = Date.now()
    const rows = this.#pending
    const last = this.#pendingLast
    this.#pending = []
    if (this.#listeners.size === 0) return
    const first = rows[0] ? messageOf(rows[0]) : last + 1
    // made into bytes once, not once a page
    let forAll: Buffer | undefined
    for (const listener of this.#listeners) {
      if (listener.cursor >= last) continue
      if (listener.cursor + 1 === first) {
        forAll ??= Buffer.from(event('readings', last, this.#body(rows)))
        this.#send(listener, forAll)
      } else if (listener.cursor < first) {
        // committed after it had opened, and before the first push
        this.#sendMissed(listener, this.#readMissed(listener.cursor, MISSED_AT_MOST), last)
      } else {
        // it joined while these were on their way, and has read some of them from the store
        const unseen = rows.filter((row) => messageOf(row) > listener.cursor)
        if (unseen.length > 0) this.#send(listener, event('readings', last, this.#body(unseen)))
      }
      listener.cursor = last
    }
  }

  #sendMissed(listener: Listener, missed: readonly ReadingRow[] | null, last: number): void {
    if (missed === null) this.#send(listener, event('resync', last, this.#news()))
    else if (missed.length > 0) this.#send(listener, event('readings', last, this.#body(missed)))
  }

  #send(listener: Listener, bytes: string | Buffer): void {
    if (listener.response.writableLength > UNSENT_BYTES_AT_MOST) listener.response.destroy()
    else listener.response.write(bytes)
  }

  #news(): StreamNews {
    return { nowMs: this.#nowMs(), changes: this.#changes }
  }

  #body(rows: readonly ReadingRow[]) {
    return { nowMs: this.#nowMs(), rows: rows.map(asTuple) }
  }
}

export function asTuple(row: ReadingRow): ReadingTuple {
  return [row.id, row.channel, row.timeMs, row.signal, row.value, row.uncertainty, row.flag]
}

function messageOf(row: ReadingRow): number {
  return Math.floor(row.id / READINGS_PER_MESSAGE)
}

function event(name: StreamEvent, cursor: number | null, body: object): string {
  return `event: ${name}\n${cursor === null ? '' : `id: ${cursor}\n`}data: ${JSON.stringify(body)}\n\n`
}
