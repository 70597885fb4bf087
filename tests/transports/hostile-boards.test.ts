import { once } from 'node:events'
import { connect as netConnect, type Socket } from 'node:net'
import mqtt, { type IClientOptions } from 'mqtt'
import { afterEach, describe, expect, test, vi } from 'vitest'
import { BoardKeys } from '../../hub/access/board-keys.ts'
import { systemClock } from '../../hub/clock.ts'
import { startEmbeddedBroker } from '../../hub/sources/embedded-broker.ts'
import type { MqttSource } from '../../hub/sources/mqtt-source.ts'
import { MAX_PACKET_BYTES, PacketCeiling } from '../../hub/sources/packet-ceiling.ts'
import { connectMqtt, nextMessage, whenClosed } from '../support/mqtt-client.ts'
import { connectPacket, pingPacket, publishPacket } from '../support/mqtt-packets.ts'
import { ReceivedFrames } from '../support/received-frames.ts'

const host = '127.0.0.1'
let broker: MqttSource | null = null
const sockets: Socket[] = []

afterEach(async () => {
  for (const socket of sockets.splice(0)) socket.destroy()
  await broker?.close()
  broker = null
})

/** A broker as on a network: no board without its key. */
async function start(mayBeAnonymous = false) {
  const frames = new ReceivedFrames()
  const keys = new BoardKeys({ all: () => [], set: () => {}, remove: () => false }, mayBeAnonymous)
  const links: string[] = []
  broker = await startEmbeddedBroker(
    { host, port: 0, tls: null },
    keys,
    frames.receive,
    (board, isUp) => links.push(`${board} ${isUp}`),
    systemClock,
  )
  const board = (name: string, options: IClientOptions = {}) =>
    connectMqtt(`mqtt://${host}:${broker!.port}`, {
      username: name,
      password: keys.make(name, 0),
      reconnectPeriod: 0,
      ...options,
    })
  return { frames, keys, links, board }
}

async function raw(): Promise<Socket> {
  const socket = netConnect({ host, port: broker!.port })
  sockets.push(socket)
  socket.on('error', () => {})
  await once(socket, 'connect')
  return socket
}

function hasClosed(socket: Socket): Promise<void> {
  return new Promise((resolve) => socket.once('close', () => resolve()))
}

/** Whether the broker still serves a board that behaves. */
async function stillServes(board: Awaited<ReturnType<typeof start>>['board'], frames: ReceivedFrames) {
  const before = frames.all.length
  const client = await board('well-behaved-1')
  await client.publishAsync('tussock/well-behaved-1/pack', '[]', { qos: 1 })
  expect(frames.all.length).toBeGreaterThan(before)
  await client.endAsync()
}

describe('packets', () => {
  test('the ceiling follows packets however they are cut, and stops at the first that is too long', () => {
    const publish = (bytes: number) => publishPacket('a', Buffer.alloc(bytes))
    const fits = Buffer.concat([publish(10), pingPacket, publish(300), publish(200)])
    for (const step of [1, 2, 3, 7, 64, fits.length]) {
      const ceiling = new PacketCeiling(30, 303)
      for (let at = 0; at < fits.length; at += step)
        expect(ceiling.admits(fits.subarray(at, at + step)), `step ${step}, byte ${at}`).toBe(true)
      expect(ceiling.admits(publish(301))).toBe(false)
    }
    expect(new PacketCeiling(30, 303).admits(publish(31))).toBe(false)
    expect(new PacketCeiling().admits(Buffer.from([0x30, 0xff, 0xff, 0xff, 0xff]))).toBe(false)
  })

  test('a packet that says it has 256 MB ends its connection before any of it is gathered', async () => {
    const { board, frames } = await start()
    const heap = process.memoryUsage().arrayBuffers
    for (let each = 0; each < 40; each++) {
      const socket = await raw()
      const closed = hasClosed(socket)
      socket.write(Buffer.concat([Buffer.from([0x30, 0xff, 0xff, 0xff, 0x7f]), Buffer.alloc(100_000)]))
      await closed
    }
    expect(process.memoryUsage().arrayBuffers - heap).toBeLessThan(30_000_000)
    const tooLong = await board('sedge-1')
    const closed = whenClosed(tooLong)
    tooLong.publish('tussock/sedge-1/pack', Buffer.alloc(MAX_PACKET_BYTES + 1), { qos: 1 })
    await closed
    expect(frames.all).toHaveLength(0)
    await stillServes(board, frames)
  })

  test('a message a little too long is still told of', async () => {
    const { board, frames } = await start()
    const client = await board('sedge-1')
    await client.publishAsync('tussock/sedge-1/pack', Buffer.alloc(70_000, 32), { qos: 1 })
    expect(frames.all[0]!.frame.fault?.code).toBe('E_MESSAGE_TOO_LONG')
  })

  test('who connects and says nothing, or half of it, is let go, also of a flood of them', async () => {
    const { board, frames } = await start()
    const half = await raw()
    half.write(connectPacket('half').subarray(0, 7))
    await stillServes(board, frames)
    const flood = await Promise.all(Array.from({ length: 700 }, () => raw()))
    // more than it takes: some of them are sent away at once
    await Promise.race(flood.map(hasClosed))
    await hasClosed(half)
    await vi.waitUntil(() => flood.every(({ closed }) => closed), { timeout: 25_000 })
    await stillServes(board, frames)
  }, 40_000)

  test('many silent connections keep no board out', async () => {
    const { board, frames } = await start()
    await Promise.all(Array.from({ length: 300 }, () => raw()))
    await stillServes(board, frames)
  })
})

describe('what a board may do', () => {
  test('it may not speak to the broker in the broker’s own voice, nor listen to it', async () => {
    const { board, frames } = await start()
    const victim = await board('sedge-1', { clientId: 'victim' })
    let isVictimGone = false
    victim.once('close', () => {
      isVictimGone = true
    })
    for (const topic of ['$SYS/x/new/clients', '$SYS/x/heartbeat', '$share/x']) {
      const rogue = await board('sedge-2')
      const closed = whenClosed(rogue)
      rogue.publish(topic, 'victim', { qos: 1 })
      await closed
    }
    expect(frames.all.map(({ frame }) => frame.fault?.code)).toEqual(Array(3).fill('E_BOARD_KEY'))
    await victim.publishAsync('tussock/sedge-1/pack', '[]', { qos: 1 })
    expect(isVictimGone).toBe(false)
    const { frames: _, ...open } = await startOpen()
    const listener = await open.connect()
    const granted = await listener.subscribeAsync('$SYS/#').catch((error: Error) => error)
    expect(granted).toBeInstanceOf(Error)
  })

  test('it pushes no other board off by using its client id, and is pushed off by its own return', async () => {
    const { board, keys } = await start()
    const victim = await board('sedge-1', { clientId: 'same' })
    await board('sedge-2', { clientId: 'same' })
    await victim.publishAsync('tussock/sedge-1/pack', '[]', { qos: 1 })
    const closed = whenClosed(victim)
    await connectMqtt(`mqtt://${host}:${broker!.port}`, {
      username: 'sedge-1',
      password: keys.make('sedge-1', 0),
      clientId: 'same',
    })
    await closed
  })

  test('its last will is bound by its name as its messages are', async () => {
    const { board, frames, links } = await start()
    const rogue = await board('sedge-2', {
      will: { topic: 'tussock/sedge-1/link', payload: Buffer.from('lost'), qos: 1, retain: true },
    })
    rogue.stream.destroy()
    const [told] = await frames.count(1)
    expect(told!.fault?.code).toBe('E_BOARD_KEY')
    expect(links).toEqual([])
  })

  test('nothing is kept for it while it is away, of what it may not hear least of all', async () => {
    const { board } = await start()
    const options = { clientId: 'away', clean: false }
    const rogue = await board('sedge-2', options)
    // a refused subscription beside a granted one
    await rogue
      .subscribeAsync(['tussock/sedge-2/ask', 'tussock/#', 'tussock/+/pack'], { qos: 1 })
      .catch(() => {})
    await rogue.endAsync(true)
    const other = await board('sedge-1')
    await other.publishAsync('tussock/sedge-1/pack', '["secret"]', { qos: 1 })
    const heard: string[] = []
    const back = await board('sedge-2', options)
    back.on('message', (topic) => heard.push(topic))
    await back.subscribeAsync('tussock/sedge-2/ask', { qos: 1 })
    const asked = nextMessage(back)
    broker!.say('sedge-2', 'who')
    await asked
    expect(heard).toEqual(['tussock/sedge-2/ask'])
  })

  test('only that it is there is kept for who comes later', async () => {
    const { frames: _, connect } = await startOpen()
    const rogue = await connect()
    for (let each = 0; each < 20; each++)
      await rogue.publishAsync(`tussock/sedge-1/invented/${each}`, 'x'.repeat(1000), { qos: 1, retain: true })
    await rogue.publishAsync('tussock/sedge-1/pack', '[]', { qos: 1, retain: true })
    await rogue.publishAsync('tussock/sedge-1/link', 'x'.repeat(1000), { qos: 1, retain: true })
    await rogue.publishAsync('tussock/sedge-2/link', 'up', { qos: 1, retain: true })
    const later = await connect()
    const heard: string[] = []
    later.on('message', (topic) => heard.push(topic))
    await later.subscribeAsync('#', { qos: 1 })
    const last = nextMessage(later)
    await rogue.publishAsync('tussock/sedge-3/ask', 'who', { qos: 1 })
    await last
    while (!heard.includes('tussock/sedge-3/ask')) await nextMessage(later)
    expect(heard.filter((topic) => topic !== 'tussock/sedge-3/ask')).toEqual(['tussock/sedge-2/link'])
  })

  test('a client id may be as long as a name, not as a book', async () => {
    const { keys } = await start()
    const refused = mqtt.connect(`mqtt://${host}:${broker!.port}`, {
      reconnectPeriod: 0,
      clientId: 'x'.repeat(10_000),
      username: 'sedge-1',
      password: keys.make('sedge-1', 0),
    })
    const error = await new Promise<Error>((resolve) => refused.once('error', resolve))
    expect(error.message).toMatch(/identifier rejected/i)
    await refused.endAsync(true)
  })
})

/** A broker as on the hub's own machine: boards need no key. */
async function startOpen() {
  await broker?.close()
  const { frames } = await start(true)
  return { frames, connect: () => connectMqtt(`mqtt://${host}:${broker!.port}`, { reconnectPeriod: 0 }) }
}
