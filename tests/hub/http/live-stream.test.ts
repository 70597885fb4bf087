import { EventEmitter } from 'node:events'
import type { ServerResponse } from 'node:http'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { LiveStream } from '../../../hub/http/live-stream.ts'
import type { ReadingRow } from '../../../hub/store/store.ts'

const row = (message: number): ReadingRow => ({
  channel: 1,
  timeMs: message,
  id: message * 1024,
  signal: message,
  value: null,
  uncertainty: null,
  flag: 2,
  calibration: null,
  why: null,
})

/** A response that remembers what was written. */
class Page extends EventEmitter {
  text = ''
  writableLength = 0
  isDestroyed = false
  writeHead() {}
  write(text: string) {
    this.text += text
  }
  end() {}
  destroy() {
    this.isDestroyed = true
    this.emit('close')
  }
  /** messages whose readings it was sent, in order */
  get messages(): number[] {
    return [...this.text.matchAll(/event: readings\nid: \d+\ndata: (.*)\n/g)].flatMap(([, data]) =>
      (JSON.parse(data!) as { rows: number[][] }).rows.map(([id]) => id! / 1024),
    )
  }
  get events(): string[] {
    return [...this.text.matchAll(/event: (\w+)/g)].map(([, name]) => name!)
  }
  get lastId(): number {
    return Number([...this.text.matchAll(/id: (\d+)/g)].at(-1)?.[1])
  }
  asResponse(): ServerResponse {
    return this as unknown as ServerResponse
  }
}

let committed: number
let isWatched: boolean
let stream: LiveStream
const commit = (...messages: number[]) => {
  committed = messages.at(-1)!
  stream.push(messages.map(row), committed)
}

beforeEach(() => {
  vi.useFakeTimers()
  committed = 0
  isWatched = false
  stream = new LiveStream(
    () => 0,
    () => committed,
    (after, atMost) =>
      committed - after > atMost
        ? null
        : Array.from({ length: committed - after }, (_, k) => row(after + 1 + k)),
    (isNow) => {
      isWatched = isNow
    },
  )
})
afterEach(() => {
  stream.close()
  vi.useRealTimers()
})

test('after silence a reading goes out at once; those that follow within 100 ms go out together', () => {
  const page = new Page()
  stream.open(page.asResponse(), null)
  commit(1)
  expect(page.messages).toEqual([1])
  commit(2)
  commit(3)
  expect(page.messages).toEqual([1])
  vi.advanceTimersByTime(100)
  expect(page.messages).toEqual([1, 2, 3])
  expect(page.events.filter((name) => name === 'readings')).toHaveLength(2)
})

test('a page that comes back has every reading once, wherever the break fell', () => {
  for (let seen = 0; seen <= 8; seen++) {
    const before = committed
    for (let n = 1; n <= 5; n++) commit(before + n)
    vi.advanceTimersByTime(100)
    commit(before + 6, before + 7) // goes out at once
    commit(before + 8) // waits for its turn
    const page = new Page()
    stream.open(page.asResponse(), before + seen)
    commit(before + 9)
    vi.advanceTimersByTime(100)
    expect(page.messages).toEqual(Array.from({ length: 9 - seen }, (_, k) => before + seen + 1 + k))
    expect(page.lastId).toBe(before + 9)
    vi.advanceTimersByTime(1000)
    page.emit('close')
  }
})

test('a page that missed too much, or knows another database, is told to fetch everything anew', () => {
  committed = 10_000
  for (const since of [1, 20_000]) {
    const page = new Page()
    stream.open(page.asResponse(), since)
    expect(page.events).toEqual(['pulse', 'resync'])
    expect(page.lastId).toBe(10_000)
  }
})

test('a phone that reads too slowly is let go, and the others are not', () => {
  const slow = new Page()
  const quick = new Page()
  for (const page of [slow, quick]) stream.open(page.asResponse(), null)
  slow.writableLength = 3_000_000
  commit(1)
  expect(slow.isDestroyed).toBe(true)
  expect(quick.messages).toEqual([1])
  expect(stream.listeners).toBe(1)
})

test('says when anyone watches, and whoever comes has every reading once, though nothing was pushed before', () => {
  for (const firstPush of [[], [9], [9, 10]]) {
    expect(isWatched).toBe(false)
    committed = 5
    const page = new Page()
    stream.open(page.asResponse(), null)
    expect(isWatched).toBe(true)
    committed = 8 // by the time the writer has heard that somebody watches
    if (firstPush.length > 0) commit(...firstPush)
    else stream.push([], committed)
    commit(committed + 1)
    vi.advanceTimersByTime(100)
    const last = committed
    expect(page.messages).toEqual(Array.from({ length: last - 5 }, (_, k) => 6 + k))
    page.emit('close')
    page.emit('close')
    expect(isWatched).toBe(false)
    vi.advanceTimersByTime(1000)
  }
})

test('one that comes between two that watch misses nothing of what was not pushed', () => {
  const first = new Page()
  stream.open(first.asResponse(), null)
  commit(1)
  commit(2) // waits for its turn
  const second = new Page()
  committed = 3 // not pushed
  stream.open(second.asResponse(), null)
  first.emit('close')
  commit(5) // nor was 4
  vi.advanceTimersByTime(200)
  expect(second.messages).toEqual([4, 5])
})

test('a pulse every 10 s tells a page that the hub is still there', () => {
  const page = new Page()
  stream.open(page.asResponse(), null)
  expect(page.events).toEqual(['pulse'])
  vi.advanceTimersByTime(30_000)
  expect(page.events).toEqual(['pulse', 'pulse', 'pulse', 'pulse'])
})

test('a change that was told before a page came is seen in the count with the first event', () => {
  const counts = (page: Page) =>
    [...page.text.matchAll(/event: (\w+)\ndata: .*"changes":(\d+)/g)].map(([, name, n]) => [name, Number(n)])
  const first = new Page()
  stream.open(first.asResponse(), 0)
  const begin = stream.changes
  for (const name of ['surveys', 'directory', 'spots', 'recomputed'] as const) stream.tell(name)
  const late = new Page()
  stream.open(late.asResponse(), 0)
  expect(counts(first)).toEqual([
    ['pulse', begin],
    ['surveys', begin + 1],
    ['directory', begin + 1],
    ['spots', begin + 2],
    ['recomputed', begin + 3],
  ])
  expect(counts(late)).toEqual([['pulse', begin + 3]])
  expect(stream.changes).toBe(begin + 3)
})

test('a page that takes nothing is let go after a while, however little it is sent', () => {
  const [deaf, slow] = [new Page(), new Page()]
  for (const page of [deaf, slow]) {
    stream.open(page.asResponse(), null)
    page.writableLength = 100
  }
  vi.advanceTimersByTime(20_000)
  slow.writableLength = 0
  vi.advanceTimersByTime(10_000)
  slow.writableLength = 100
  expect(deaf.isDestroyed).toBe(false)
  vi.advanceTimersByTime(20_000)
  expect([deaf.isDestroyed, slow.isDestroyed]).toEqual([true, false])
  expect(stream.listeners).toBe(1)
})
