import { mkdirSync, readFileSync, statSync } from 'node:fs'
import { get } from 'node:http'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { boardNames, surveyOf } from './class-messages.mjs'
import { fillForExport } from './csv-export.mjs'
import { startHub, startProcess } from './hub-process.mjs'
import { freshFolder, median, memoryOf } from './measuring.mjs'

const BOARDS = 50
/** 50 boards with five signals at 40 Hz: 10,000 readings a second. */
const EVERY_MS = 25
const SECONDS = 12
const WARM_UP_SECONDS = 3
const script = (name) => fileURLToPath(new URL(name, import.meta.url))

/** p99 of a typical second of each thread's event loop, ms. */
function delays(folder, from, thread) {
  const lines = readFileSync(join(folder, `${thread}.jsonl`), 'utf8')
    .trim()
    .split('\n')
    .slice(from)
  return median(lines.map((line) => JSON.parse(line).p99))
}

const linesOf = (folder, thread) =>
  readFileSync(join(folder, `${thread}.jsonl`), 'utf8').split('\n').length - 1

/** How long the hub's event loops are held up while 10,000 readings a second come in and a download goes out. */
export async function measureLoop() {
  const folder = freshFolder()
  const data = join(folder, 'data')
  mkdirSync(data)
  fillForExport(data)
  process.env.LOOP_PROBE = folder
  process.env.NODE_OPTIONS = `--import=${script('loop-probe.mjs')}`
  const hub = await startHub(data)
  delete process.env.NODE_OPTIONS
  delete process.env.LOOP_PROBE
  await fetch(`${hub.address}/api/surveys/bench`, {
    method: 'PUT',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(surveyOf(boardNames(BOARDS))),
  })
  await pause(5000)
  const quiet = linesOf(folder, 'main') - 4
  const idle = { main: delays(folder, quiet, 'main'), page: delays(folder, quiet, 'page') }
  const busy = linesOf(folder, 'main') + 1 + WARM_UP_SECONDS
  const messages = ((WARM_UP_SECONDS + SECONDS) * 1000) / EVERY_MS
  const untimed = (WARM_UP_SECONDS * 1000) / EVERY_MS
  let isOver = false
  let largestWal = 0
  const publishing = startProcess(
    process.execPath,
    [script('paced-boards.mjs'), ...[hub.mqttPort, BOARDS, messages, EVERY_MS, untimed].map(String)],
    /done (.*)\n/,
  ).then(({ match }) => {
    isOver = true
    return JSON.parse(match[1])
  })
  const downloading = (async () => {
    while (!isOver) {
      const response = await new Promise((resolve) => get(`${hub.address}/api/export/readings.csv`, resolve))
      for await (const _ of response) if (isOver) break
      largestWal = Math.max(largestWal, statSync(join(data, 'readings.sqlite-wal')).size)
    }
  })()
  const acknowledged = await publishing
  await downloading
  const during = { main: delays(folder, busy, 'main'), page: delays(folder, busy, 'page') }
  const { highest } = memoryOf(hub.pid)
  await hub.stop()
  const row = (what, unit, number, limits) => ({ what, unit, hub: number, limits })
  return [
    row('event loop of storing, p99, 10,000 readings/s and a download', 'ms', during.main, [
      ['the same, idle', idle.main, { atMost: 3 }],
    ]),
    row('event loop of pages, p99', 'ms', during.page, [['the same, idle', idle.page, { atMost: 3 }]]),
    row('acknowledged after, p99', 'ms', acknowledged.p99, [['a tenth of a second', 100, { atMost: 1 }]]),
    row('largest WAL', 'MB', largestWal / 1e6, [['allowed', 64, { atMost: 1 }]]),
    row('memory, highest', 'MB', highest, [['allowed', 200, { atMost: 1 }]]),
  ]
}
