import { appendFileSync, readdirSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { EventLog, readLog } from '../../../hub/log/event-log.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'

const said = (folder: string) => readLog(folder).map((line) => line.said)

test('what is written is read again, with its time, and goes on where it was after a restart', () => {
  const folder = temporaryFolder()
  const nowMs = () => Date.UTC(2026, 5, 12, 9)
  new EventLog(folder, nowMs).write({ level: 'info', what: 'hub', said: 'started' })
  new EventLog(folder, nowMs).write({ level: 'error', what: 'storing', said: 'The disk is full.' })
  expect(readLog(folder)).toEqual([
    { time: '2026-06-12T09:00:00.000Z', level: 'info', what: 'hub', said: 'started' },
    { time: '2026-06-12T09:00:00.000Z', level: 'error', what: 'storing', said: 'The disk is full.' },
  ])
})

test('a long log is put aside, the oldest is forgotten, and what remains is in order and small', () => {
  const folder = temporaryFolder()
  const log = new EventLog(folder, Date.now, 2000)
  const lines = Array.from({ length: 400 }, (_, number) => `line ${number}`)
  for (const line of lines) log.write({ level: 'info', what: 'test', said: line })
  const files = readdirSync(join(folder, 'log')).sort()
  expect(files).toEqual(['hub.1.jsonl', 'hub.2.jsonl', 'hub.3.jsonl', 'hub.4.jsonl', 'hub.jsonl'])
  for (const file of files) expect(statSync(join(folder, 'log', file)).size).toBeLessThanOrEqual(2000)
  const left = said(folder)
  expect(left).toEqual(lines.slice(-left.length))
  expect(left.length).toBeGreaterThan(50)
})

test('a line torn by a power cut spoils no other, and a hostile name stays in its line', () => {
  const folder = temporaryFolder()
  const log = new EventLog(folder, Date.now)
  log.write({ level: 'info', what: 'board a\nb', said: 'heard\r\n{"said":"forged"}' })
  appendFileSync(join(folder, 'log', 'hub.jsonl'), '{"time":"2026-06-12T09:0\n')
  log.write({ level: 'info', what: 'hub', said: 'after' })
  expect(said(folder)).toEqual(['heard\r\n{"said":"forged"}', 'after'])
})

test('where nothing can be written, the hub is not kept from its work', () => {
  const folder = temporaryFolder()
  writeFileSync(join(folder, 'log'), 'a file where the folder should be')
  expect(() => new EventLog(folder, Date.now).write({ level: 'info', what: 'hub', said: 'x' })).not.toThrow()
})
