import type { ServerResponse } from 'node:http'
import type { ReadingTuple } from '../contract/reading.ts'
import type { StreamEvent } from '../contract/stream.ts'
import type { ReadingRow } from '../store/store.ts'
import { READINGS_PER_MESSAGE } from '../store/store.ts'

/** After silence a reading goes out at once; while more come, what gathers in this time goes out together. */
const BATCH_MS = 100
/** A page that has missed more messages than this is told to fetch everything anew. */
const MISSED_AT_MOST = 5000
/** A phone that takes this many bytes too slowly is let go; it comes back and resumes. */
const UNSENT_BYTES_AT_MOST = 2_000_000
const PULSE_MS = 10_000

interface Listener {
  response: ServerResponse
  /** id of the last message whose readings it was sent */
  cursor: number
}

/** The readings a page missed; null when there are more than it makes sense to send. */
type ReadMissed = (afterMessage: number, atMost: number) => ReadingRow[] | null

/** Sends each committed reading to every open page: one text for all of them, a few times a second. */
export class LiveStream {
  readonly #listeners = new Set<Listener>()
  readonly #nowMs: () => number
  readonly #readMissed: ReadMissed
  readonly #lastMessageId: () => number
  #pending: ReadingRow[] = []
  #pendingLast = 0
  #flushedAt = 0
  #timer: NodeJS.Timeout | undefined
  readonly #pulse: NodeJS.Timeout

  constructor(nowMs: () => number, lastMessageId: () => number, readMissed: ReadMissed) {
    this.#nowMs = nowMs
    this.#lastMessageId = lastMessageId
    this.#readMissed = readMissed
    this.#pulse = setInterval(() => this.tell('pulse'), PULSE_MS)
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
    const listener: Listener = { response, cursor: since ?? this.#lastMessageId() }
    response.write('retry: 1000\n\n')
    if (since !== null) {
      const last = this.#lastMessageId()
      const missed = since > last ? null : this.#readMissed(since, MISSED_AT_MOST)
      listener.cursor = last
      if (missed === null) response.write(event('resync', last, { nowMs: this.#nowMs() }))
      else if (missed.length > 0) response.write(event('readings', last, this.#body(missed)))
    }
    this.#listeners.add(listener)
    response.on('close', () => this.#listeners.delete(listener))
    response.on('error', () => this.#listeners.delete(listener))
  }

  /** Takes what was just committed. */
  push(rows: readonly ReadingRow[], lastMessageId: number): void {
    for (const row of rows) this.#pending.push(row)
    this.#pendingLast = Math.max(this.#pendingLast, lastMessageId)
    if (this.#timer) return
    const waitMs = Math.max(0, this.#flushedAt + BATCH_MS - Date.now())
    if (waitMs === 0) this.#flush()
    else this.#timer = setTimeout(() => this.#flush(), waitMs)
  }

  /** Tells every page that a part of what it shows is out of date. */
  tell(name: Exclude<StreamEvent, 'readings'>): void {
    const text = event(name, null, { nowMs: this.#nowMs() })
    for (const listener of this.#listeners) this.#send(listener, text)
  }

  close(): void {
    clearInterval(this.#pulse)
    clearTimeout(this.#timer)
    for (const { response } of this.#listeners) response.end()
    this.#listeners.clear()
  }

  #flush(): void {
    this.#timer = undefined
    this.#flushedAt = Date.now()
    const rows = this.#pending
    this.#pending = []
    if (rows.length === 0 || this.#listeners.size === 0) return
    const first = Math.min(...rows.slice(0, 1).map(messageOf), this.#pendingLast)
    const forAll = event('readings', this.#pendingLast, this.#body(rows))
    for (const listener of this.#listeners) {
      if (listener.cursor < first) this.#send(listener, forAll)
      else {
        // it joined while these were on their way, and has read some of them from the store
        const unseen = rows.filter((row) => messageOf(row) > listener.cursor)
        if (unseen.length > 0) this.#send(listener, event('readings', this.#pendingLast, this.#body(unseen)))
      }
      listener.cursor = Math.max(listener.cursor, this.#pendingLast)
    }
  }

  #send(listener: Listener, text: string): void {
    if (listener.response.writableLength > UNSENT_BYTES_AT_MOST) listener.response.destroy()
    else listener.response.write(text)
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
