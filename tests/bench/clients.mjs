import { readdirSync, readFileSync } from 'node:fs'
import { setTimeout as pause } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { boardNames, READINGS_PER_MESSAGE, surveyOf } from './class-messages.mjs'
import { end, startHub, startProcess } from './hub-process.mjs'
import { freshFolder, median } from './measuring.mjs'

const CLIENTS = 30
const BOARDS = 20
/** messages of a board in a second: 3,000 readings a second in all */
const HERTZ = 30
const SPAN_MS = 8000
/** enough for the thread that answers to stand out */
const ASKED = 300
/** ticks of /proc/PID/stat in a second on Linux */
const TICKS = 100

const program = (name) => fileURLToPath(new URL(name, import.meta.url))
const run = (name, args, pattern) =>
  startProcess(process.execPath, [program(name), ...args.map(String)], pattern)

/** Processor time of a thread so far, seconds (Linux). */
function processorSeconds(pid, thread) {
  const stat = readFileSync(`/proc/${pid}/task/${thread}/stat`, 'utf8')
  const [user, system] = stat
    .slice(stat.lastIndexOf(')') + 2)
    .split(' ')
    .slice(11, 13)
    .map(Number)
  return (user + system) / TICKS
}

/**
 * The thread of a hub that serves pages. What the other one needs to store depends on how messages happen to come together,
 * and would drown what is measured here.
 */
async function pageThreadOf({ pid, address }) {
  const all = () =>
    new Map(readdirSync(`/proc/${pid}/task`).map((thread) => [Number(thread), processorSeconds(pid, thread)]))
  const before = all()
  for (let asked = 0; asked < ASKED; asked++) await (await fetch(`${address}/api/hub`)).json()
  const risen = [...all()].map(([thread, seconds]) => [thread, seconds - (before.get(thread) ?? 0)])
  return risen.filter(([thread]) => thread !== pid).sort((one, other) => other[1] - one[1])[0][0]
}

/** Share of one processor that a thread needs, %. */
async function shareOf(pid, thread) {
  const [before, begun] = [processorSeconds(pid, thread), performance.now()]
  await pause(SPAN_MS)
  return (100_000 * (processorSeconds(pid, thread) - before)) / (performance.now() - begun)
}

/** What a server needs for its listeners: its share with them less its share without, by turns, %. */
async function forListeners(runs, { pid, thread, port, path }) {
  const more = []
  for (let turn = 0; turn < runs; turn++) {
    const alone = await shareOf(pid, thread)
    const { child } = await run('clients-listening.mjs', [port, path, CLIENTS], /listening/)
    await pause(500)
    more.push((await shareOf(pid, thread)) - alone)
    await end(child)
    await pause(300)
  }
  return Math.max(0, median(more))
}

async function throughHub(runs) {
  const hub = await startHub(freshFolder())
  await fetch(`${hub.address}/api/surveys/bench`, {
    method: 'PUT',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(surveyOf(boardNames(BOARDS))),
  })
  const thread = await pageThreadOf(hub)
  const boards = await run('page-boards.mjs', [hub.mqttPort, BOARDS, HERTZ], /publishing/)
  await pause(2000)
  const { port } = new URL(hub.address)
  const share = await forListeners(runs, { pid: hub.pid, thread, port, path: '/api/stream' })
  await end(boards.child)
  await hub.stop()
  return share
}

async function unbatched(runs) {
  const args = [READINGS_PER_MESSAGE, BOARDS * HERTZ]
  const { child, match } = await run('clients-unbatched.mjs', args, /port (\d+)/)
  const share = await forListeners(runs, { pid: child.pid, thread: child.pid, port: match[1], path: '/' })
  await end(child)
  return share
}

/** Thirty pages on 3,000 readings a second: what telling them costs, beside telling them each reading at once. */
export async function measureClients(runs = 3) {
  const hub = await throughHub(runs)
  const each = await unbatched(runs)
  return {
    rows: [
      {
        what: `processor for ${CLIENTS} pages at ${BOARDS * HERTZ * READINGS_PER_MESSAGE} readings/s`,
        unit: '% of one',
        hub,
        limits: [['to each reading sent at once', each, { atMost: 0.2 }]],
      },
    ],
  }
}
