import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { expect, test } from 'vitest'
import { appraiseWith } from '../../../hub/intake/appraise.ts'
import { Intake } from '../../../hub/intake/intake.ts'
import { CaptureRecorder, replayCapture } from '../../../hub/sources/capture.ts'
import type { Frame } from '../../../hub/sources/source.ts'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'
import { ReceivedFrames } from '../../support/received-frames.ts'
import { SmallHub } from '../../support/small-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'

const everyByte = Buffer.from(Array.from({ length: 256 }, (_, byte) => byte))
const numbered = (message: number) =>
  `[{"bn":"sedge-1/","n":"startup","v":7},{"n":"message","v":${message}},{"n":"ph","u":"mV","v":${80 + message},"t":-2}]`

/** An afternoon in small: good packs, a repeat, columns, noise, a cut line and a wrong topic. */
function frames(): Frame[] {
  const at = (second: number, rest: Omit<Frame, 'arrivedMs' | 'source'>, source = 'serial:/dev/ttyUSB0') => ({
    source,
    arrivedMs: nineOClock + second * 1000 + 123,
    ...rest,
  })
  return [
    at(0, { format: 'line', board: null, bytes: Buffer.from(numbered(1)) }),
    at(1, { format: 'pack', board: 'sedge-1', bytes: Buffer.from(numbered(2)) }, 'mqtt:client'),
    at(2, { format: 'line', board: null, bytes: Buffer.from(numbered(2)) }),
    at(3, { format: 'columns', board: 'fern-2', bytes: Buffer.from('512,23.1,880') }, 'mqtt:other'),
    at(4, { format: 'line', board: 'fern-2', bytes: everyByte }),
    at(5, {
      format: 'line',
      board: 'fern-2',
      bytes: Buffer.from('[{"n":"ha'),
      fault: { code: 'E_LINE_UNREADABLE', message: 'the line broke off when the port closed.' },
    }),
    at(6, { format: 'pack', board: null, bytes: Buffer.alloc(0), fault: { code: 'E_TOPIC', message: 'no' } }),
  ]
}

function contentOf(folder: string): Record<string, unknown[]> {
  const database = new Database(join(folder, 'readings.sqlite'), { readonly: true })
  const tables = ['board', 'channel', 'message', 'every_reading', 'quarantine', 'tally']
  const content = tables.map((table) => [
    table,
    database.prepare(`SELECT * FROM ${table} ORDER BY 1, 2`).all(),
  ])
  database.close()
  return Object.fromEntries(content)
}

async function keepIn(folder: string, send: (intake: Intake) => unknown): Promise<Record<string, unknown[]>> {
  const hub = new SmallHub(folder)
  hub.keeper.save(exampleSurvey(), 'test')
  const quiet = { committed: () => {}, isWatched: () => false, trouble: () => {} }
  const intake = new Intake(
    hub.writer,
    folder,
    appraiseWith(hub.keeper.timelines),
    hub.keeper.columnsOf,
    quiet,
  )
  await send(intake)
  intake.drain()
  hub.close()
  return contentOf(folder)
}

async function recordAll(path: string): Promise<void> {
  const recorder = new CaptureRecorder(path)
  for (const frame of frames()) recorder.record(frame)
  await recorder.close()
}

test('a capture replayed fills a fresh store with exactly what the first one holds', async () => {
  const path = join(temporaryFolder(), 'afternoon.capture')
  await recordAll(path)
  const live = await keepIn(temporaryFolder(), (intake) => {
    for (const frame of frames()) intake.receive(frame)
  })
  const replayed = await keepIn(temporaryFolder(), async (intake) => {
    expect(await replayCapture(path, intake.receive)).toBe(frames().length)
  })
  expect(live['every_reading']!.length).toBeGreaterThan(3)
  expect(live['quarantine']).toHaveLength(3)
  expect(live['tally']).toContainEqual({ name: 'repeats', count: 1 })
  expect(replayed).toEqual(live)
})

test('a capture replayed twice into one store adds no numbered message twice', async () => {
  const path = join(temporaryFolder(), 'afternoon.capture')
  await recordAll(path)
  const content = await keepIn(temporaryFolder(), async (intake) => {
    await replayCapture(path, intake.receive)
    await replayCapture(path, intake.receive)
  })
  const numberedMessages = (content['message'] as { number: number | null }[]).filter(
    ({ number }) => number !== null,
  )
  expect(numberedMessages.map(({ number }) => number)).toEqual([1, 2])
})

test('frames come back as they were, byte for byte, with their times', async () => {
  const path = join(temporaryFolder(), 'afternoon.capture')
  await recordAll(path)
  const received = new ReceivedFrames()
  await replayCapture(path, received.receive)
  expect(received.all.map(({ frame }) => frame)).toEqual(frames())
})

test('a file that is no capture is refused, naming the file', async () => {
  const path = join(temporaryFolder(), 'notes.txt')
  for (const text of ['{"some":"json"}\n', '[]\n', 'Dear diary\n', '{"tussockCapture":2}\n', '']) {
    writeFileSync(path, text)
    const refusal = expect.objectContaining({ code: 'E_CAPTURE', message: expect.stringContaining(path) })
    await expect(
      replayCapture(path, () => {}),
      text,
    ).rejects.toEqual(refusal)
  }
})

test('a damaged line is refused by its number, after the lines before it were taken', async () => {
  const path = join(temporaryFolder(), 'afternoon.capture')
  await recordAll(path)
  const lines = readFileSync(path, 'utf8').trimEnd().split('\n')
  const spoiled = [
    '{"at":"2026-06-12T09:00:0',
    '{"at":"yesterday","source":"x","format":"line","board":null,"bytes":""}',
    '{"at":"2026-06-12T09:00:00Z","source":"x","format":"letter","board":null,"bytes":""}',
    '{"at":"2026-06-12T09:00:00Z","source":"x","format":"line","board":7,"bytes":""}',
    '{"at":"2026-06-12T09:00:00Z","source":"x","format":"line","board":null}',
    'null',
  ]
  for (const line of spoiled) {
    writeFileSync(path, [...lines.slice(0, 3), line, ...lines.slice(3)].join('\n'))
    const received = new ReceivedFrames()
    await expect(replayCapture(path, received.receive)).rejects.toThrow(/line 4: /)
    expect(received.all).toHaveLength(2)
  }
})

test('a capture that is not there is refused, naming the file', async () => {
  const path = join(temporaryFolder(), 'missing.capture')
  await expect(replayCapture(path, () => {})).rejects.toEqual(
    expect.objectContaining({ code: 'E_CAPTURE', message: expect.stringContaining(path) }),
  )
})

test('a store that fails ends the replay with its own words', async () => {
  const path = join(temporaryFolder(), 'afternoon.capture')
  await recordAll(path)
  const full = new ReceivedFrames((_frame, place) => ({
    error: place === 2 ? new Error('disk full') : null,
    replies: [],
  }))
  await expect(replayCapture(path, full.receive)).rejects.toThrow('disk full')
})

test('a recording does not write over a file that is there, and says so', async () => {
  const path = join(temporaryFolder(), 'kept.txt')
  writeFileSync(path, 'kept')
  const recorder = new CaptureRecorder(path)
  const error = await new Promise<Error>((resolve) => recorder.onError(resolve))
  expect(error.message).toContain('EEXIST')
  recorder.record(frames()[0]!)
  await recorder.close()
  expect(readFileSync(path, 'utf8')).toBe('kept')
})
