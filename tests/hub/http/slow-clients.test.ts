import { EventEmitter, once } from 'node:events'
import type { Server } from 'node:http'
import { type AddressInfo, connect, type Server as NetServer, type Socket } from 'node:net'
import { serve } from '@hono/node-server'
import { RESPONSE_ALREADY_SENT } from '@hono/node-server/utils/response'
import { Hono } from 'hono'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { limitPerAddress } from '../../../hub/access/connections-per-address.ts'
import { LOOK_FOR_SLOW_MS, limitConnections } from '../../../hub/http/limit-connections.ts'
import { LiveStream } from '../../../hub/http/live-stream.ts'
import { textStream } from '../../../hub/http/text-stream.ts'
import type { ReadingRow } from '../../../hub/store/store.ts'
import { startHub } from '../../support/running-hub.ts'

/** As the hub's own, in a fiftieth of the time. */
const LIMITS = { headersMs: 300, requestMs: 1200, idleMs: 2400 }
const LOOK_MS = LOOK_FOR_SLOW_MS / 50
const PIECE = `${'x'.repeat(65_535)}\n`

let server: Server
let stream: LiveStream
let pieces: number
let isOver: boolean
const sockets: Socket[] = []

function* endless(): Generator<string> {
  for (;;) {
    pieces++
    yield PIECE
  }
}

beforeEach(async () => {
  pieces = 0
  isOver = false
  stream = new LiveStream(
    () => 0,
    () => 0,
    () => [],
  )
  const app = new Hono<{ Bindings: { outgoing: never } }>()
  app.onError((_error, c) => c.text('let go', 400))
  app.post('/', async (c) => c.text(String((await c.req.arrayBuffer()).byteLength)))
  app.get('/download', (c) => c.body(textStream(endless(), () => (isOver = true))))
  app.get('/stream', (c) => {
    stream.open(c.env.outgoing, null)
    return RESPONSE_ALREADY_SENT
  })
  server = serve({
    fetch: app.fetch,
    port: 0,
    hostname: '127.0.0.1',
    serverOptions: { connectionsCheckingInterval: LOOK_MS },
  }) as Server
  limitConnections(server, LIMITS)
  await once(server, 'listening')
})
afterEach(() => {
  for (const socket of sockets.splice(0)) socket.destroy()
  stream.close()
  server.closeAllConnections()
  server.close()
})

/** A client that says these bytes, and reads nothing unless asked to. */
function say(...bytes: string[]): Socket {
  const socket = connect((server.address() as AddressInfo).port, '127.0.0.1')
  sockets.push(socket)
  socket.on('error', () => {})
  for (const each of bytes) socket.write(each)
  return socket
}

function drip(socket: Socket, piece: string): void {
  const timer = setInterval(() => socket.write(piece), 40)
  socket.once('close', () => clearInterval(timer))
}

const closed = (socket: Socket) => new Promise<void>((resolve) => socket.once('close', () => resolve()))

async function untilTrue(isSo: () => boolean): Promise<void> {
  while (!isSo()) await new Promise((resolve) => setTimeout(resolve, 10))
}

test('a client that never ends its headers is let go', async () => {
  const socket = say('GET / HTTP/1.1\r\nhost: x\r\n').resume()
  drip(socket, 'x-slow: yes\r\n')
  await closed(socket)
})

test('a client that never ends its body is let go', async () => {
  const socket = say('POST / HTTP/1.1\r\nhost: x\r\ncontent-length: 1000000\r\n\r\n').resume()
  drip(socket, 'x')
  await closed(socket)
})

test('a client that says nothing is let go', async () => {
  await closed(say().resume())
})

test('a download that nobody reads is made no further, and ended', async () => {
  const socket = say('GET /download HTTP/1.1\r\nhost: x\r\n\r\n')
  socket.pause()
  await untilTrue(() => isOver)
  // what the system's own buffers take, and no more
  expect(pieces * PIECE.length).toBeLessThan(30_000_000)
  expect(server.listening).toBe(true)
})

test('a page that never reads its live readings is let go, and others go on', async () => {
  say('GET /stream HTTP/1.1\r\nhost: x\r\n\r\n').pause()
  let heard = 0
  say('GET /stream HTTP/1.1\r\nhost: x\r\n\r\n').on('data', (chunk) => {
    heard += chunk.length
  })
  await untilTrue(() => stream.listeners === 2)
  let last = 0
  const push = () => {
    last++
    const rows = Array.from({ length: 1000 }, (_, place) => ({ id: last * 1024 + place, timeMs: 0 }))
    stream.push(rows as ReadingRow[], last)
  }
  while (stream.listeners === 2) {
    push()
    await new Promise((resolve) => setTimeout(resolve, 5))
  }
  const before = heard
  push()
  await untilTrue(() => heard > before)
  expect(stream.listeners).toBe(1)
})

test('one device may not take all connections; the hub’s own machine is not counted', () => {
  class Connection extends EventEmitter {
    isDestroyed = false
    readonly remoteAddress: string
    constructor(address: string) {
      super()
      this.remoteAddress = address
    }
    destroy() {
      this.isDestroyed = true
      this.emit('close')
    }
  }
  const listener = new EventEmitter()
  limitPerAddress(listener as unknown as NetServer, 2)
  const open = (address: string) => {
    const connection = new Connection(address)
    listener.emit('connection', connection)
    return connection
  }
  const [first, second, third] = ['192.0.2.1', '192.0.2.1', '192.0.2.1'].map(open)
  expect([first, second, third].map((each) => each!.isDestroyed)).toEqual([false, false, true])
  expect(open('192.0.2.2').isDestroyed).toBe(false)
  expect(Array.from({ length: 9 }, () => open('127.0.0.1')).some(({ isDestroyed }) => isDestroyed)).toBe(
    false,
  )
  first!.destroy()
  expect(open('192.0.2.1').isDestroyed).toBe(false)
  expect(open('192.0.2.1').isDestroyed).toBe(true)
})

test('the hub itself lets go of headers that never end, and says in its stream’s headers that it is one', async () => {
  const hub = await startHub()
  const { port } = new URL(hub.address)
  const slow = connect(Number(port), '127.0.0.1')
  sockets.push(slow)
  slow.on('error', () => {}).resume()
  slow.write('GET /api/hub HTTP/1.1\r\nhost: 127.0.0.1\r\n')
  drip(slow, 'x-slow: yes\r\n')
  const { headers, body } = await hub.request('/api/stream')
  expect(headers.get('x-content-type-options')).toBe('nosniff')
  expect(headers.get('cross-origin-resource-policy')).toBe('same-origin')
  await body!.cancel()
  // no WebSocket is there to be talked to
  const upgrade = connect(Number(port), '127.0.0.1')
  sockets.push(upgrade)
  upgrade.write(
    'GET /api/stream HTTP/1.1\r\nhost: 127.0.0.1\r\nconnection: upgrade\r\nupgrade: websocket\r\nsec-websocket-version: 13\r\nsec-websocket-key: AAAAAAAAAAAAAAAAAAAAAA==\r\n\r\n',
  )
  const [answer] = (await once(upgrade, 'data')) as [Buffer]
  expect(answer.toString('latin1')).not.toMatch(/^HTTP\/1.1 101/)
  await closed(slow)
  expect((await hub.request('/api/hub')).status).toBe(200)
})
