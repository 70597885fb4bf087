import type { Server } from 'node:http'
import { createServer as createSecureServer } from 'node:https'
import { parentPort, workerData } from 'node:worker_threads'
import { serve } from '@hono/node-server'
import { Door } from '../access/door.ts'
import { runAfterStoring } from '../after-storing.ts'
import { rehearsalClock, systemClock } from '../clock.ts'
import { errorFrom, messageOf, systemCode } from '../errors.ts'
import { clearAfterStart } from '../small-heaps.ts'
import { SqliteReader } from '../store/sqlite-reader.ts'
import { SurveyRefused } from '../survey/survey-refused.ts'
import { Timelines } from '../survey/timeline.ts'
import { addressesOf, isLoopback, networkAddresses } from './addresses.ts'
import { makeApp } from './app.ts'
import type { Desk, FromPageThread, HubState, PageThreadSetting, ToPageThread } from './desk.ts'
import { HANDSHAKE_MS, LOOK_FOR_SLOW_MS, limitConnections } from './limit-connections.ts'
import { LiveStream } from './live-stream.ts'
import { LocalName } from './local-name.ts'

// The thread that serves pages. It reads the database by itself, and asks the other thread for every change.

runAfterStoring()

const port = parentPort!
const setting = workerData as PageThreadSetting
const tell = (message: FromPageThread) => port.postMessage(message)

const calls = new Map<number, { resolve: (value: unknown) => void; reject: (error: Error) => void }>()
let lastCall = 0
const desk = new Proxy({} as Desk, {
  get:
    (_target, name) =>
    (...args: unknown[]) =>
      new Promise((resolve, reject) => {
        const call = ++lastCall
        calls.set(call, { resolve, reject })
        tell({ kind: 'call', call, name: name as keyof Desk, args })
      }),
})

const reader = new SqliteReader(setting.dataFolder)
const clock = setting.isRehearsal
  ? rehearsalClock(setting.startMs, setting.speed, setting.realStartMs)
  : systemClock
const nowMs = () => clock.nowMs()
const stream = new LiveStream(
  nowMs,
  () => reader.lastMessageId(),
  (after, atMost) => reader.readingsAfter(after, atMost),
  (isWatched) => tell({ kind: 'watched', isWatched }),
)
let timelines = new Timelines(reader.surveys(), reader.spots())
let state: HubState = {
  boards: [],
  ports: [],
  broker: { description: '', state: 'gone', trouble: null },
  trouble: null,
  isRecomputing: false,
  recomputing: { left: 0, total: 0 },
  clockJumps: [],
  backup: null,
  boardsWithKey: [],
}
const { version, isRehearsal, speed } = setting
const app = makeApp({
  reader,
  desk,
  stream,
  timelines: () => timelines,
  state: () => state,
  nowMs,
  addresses: () =>
    addressesOf(setting.host, listeningOn, localName?.name ?? null, setting.tls ? 'https' : 'http'),
  door: new Door(setting.secrets),
  access: {
    isOnNetwork: !isLoopback(setting.host),
    isSecure: setting.tls !== null,
    hostNames: () => [setting.host, ...networkAddresses(), ...(localName?.name ? [localName.name] : [])],
  },
  facts: { version, isRehearsal, speed },
  pageFolder: setting.pageFolder,
})

let listeningOn = setting.port
const { host: hostname, port: wanted, tls } = setting
const slow = { connectionsCheckingInterval: LOOK_FOR_SLOW_MS }
const kind = tls
  ? { createServer: createSecureServer, serverOptions: { ...tls, ...slow, handshakeTimeout: HANDSHAKE_MS } }
  : { serverOptions: slow }
const server = serve({ fetch: app.fetch, hostname, port: wanted, ...kind }, (info) => {
  listeningOn = info.port
  tell({ kind: 'listening', port: info.port })
  clearAfterStart()
})
const localName = isLoopback(setting.host)
  ? null
  : new LocalName({ name: 'tussock', addresses: networkAddresses })
void localName?.claim()
limitConnections(server as Server)
server.on('error', (error) => {
  const isInUse = systemCode(error) === 'EADDRINUSE'
  const code = isInUse ? 'E_HTTP_PORT' : 'E_HUB'
  const message = isInUse ? `Another program listens on ${setting.host}:${setting.port}.` : messageOf(error)
  tell({ kind: 'failed', code, message })
})

port.on('message', (message: ToPageThread) => {
  switch (message.kind) {
    case 'committed':
      stream.push(message.rows, message.lastMessageId)
      break
    case 'state':
      state = message.state
      stream.tell('directory')
      break
    case 'surveys':
      timelines = new Timelines(reader.surveys(), reader.spots())
      stream.tell('surveys')
      break
    case 'spots':
      timelines = new Timelines(timelines.surveys, reader.spots())
      stream.tell('spots')
      break
    case 'recomputed':
      stream.tell('recomputed')
      break
    case 'answer':
      calls.get(message.call)?.resolve(message.value)
      calls.delete(message.call)
      break
    case 'refusal':
      calls.get(message.call)?.reject(asError(message))
      calls.delete(message.call)
      break
    case 'stop':
      stream.close()
      localName?.stop()
      server.close()
      if ('closeAllConnections' in server) server.closeAllConnections()
      reader.close()
      tell({ kind: 'stopped' })
      port.close()
      break
  }
})

function asError(message: Extract<ToPageThread, { kind: 'refusal' }>): Error {
  if (message.faults) return new SurveyRefused(message.faults)
  return errorFrom(message)
}
