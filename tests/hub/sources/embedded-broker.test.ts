import { once } from 'node:events'
import { createServer } from 'node:net'
import type { IClientOptions } from 'mqtt'
import { afterEach, expect, test } from 'vitest'
import { BoardKeys } from '../../../hub/access/board-keys.ts'
import { systemClock } from '../../../hub/clock.ts'
import { startEmbeddedBroker } from '../../../hub/sources/embedded-broker.ts'
import type { MqttSource } from '../../../hub/sources/mqtt-source.ts'
import { connectMqtt, nextMessage, whenClosed } from '../../support/mqtt-client.ts'
import { ReceivedFrames } from '../../support/received-frames.ts'

const host = '127.0.0.1'

const openToAll = () => new BoardKeys({ all: () => [], set: () => {}, remove: () => false }, true)
let broker: MqttSource | null = null

afterEach(async () => {
  await broker?.close()
  broker = null
})

async function start(frames: ReceivedFrames, links: string[] = []): Promise<MqttSource> {
  const onLink = (board: string, isUp: boolean) => links.push(`${board} ${isUp ? 'up' : 'lost'}`)
  broker = await startEmbeddedBroker(
    { host, port: 0, tls: null },
    openToAll(),
    frames.receive,
    onLink,
    systemClock,
  )
  return broker
}

function connect(options: IClientOptions = {}) {
  return connectMqtt(`mqtt://${host}:${broker!.port}`, options)
}

test('a message is acknowledged only once it is durable', async () => {
  const frames = new ReceivedFrames(() => null)
  await start(frames)
  const client = await connect()
  let isAcknowledged = false
  const acknowledged = client.publishAsync('tussock/sedge-1/pack', '["1"]', { qos: 1 }).then(() => {
    isAcknowledged = true
  })
  await frames.count(1)
  // a full round trip on the same connection: an acknowledgement already written would have come before it
  await client.subscribeAsync('tussock/sedge-1/ask')
  expect(isAcknowledged).toBe(false)
  frames.all[0]!.settle(null, () => [])
  await acknowledged
})

test('messages are acknowledged one by one as each becomes durable, in any order', async () => {
  const frames = new ReceivedFrames(() => null)
  await start(frames)
  const client = await connect()
  const acknowledged: number[] = []
  const published = [0, 1, 2].map((place) =>
    client
      .publishAsync('tussock/sedge-1/pack', `["${place}"]`, { qos: 1 })
      .then(() => acknowledged.push(place)),
  )
  await frames.count(3)
  for (const place of [2, 0, 1]) {
    frames.all[place]!.settle(null, () => [])
    await published[place]
  }
  expect(acknowledged).toEqual([2, 0, 1])
})

test('a message that could not be stored is not acknowledged, and comes again until it is', async () => {
  const frames = new ReceivedFrames((_frame, place) => ({
    error: place === 0 ? new Error('disk full') : null,
    replies: [],
  }))
  await start(frames)
  const client = await connect({ clientId: 'sedge-1', clean: false })
  await client.publishAsync('tussock/sedge-1/pack', '["kept"]', { qos: 1 })
  expect(frames.texts()).toEqual(['["kept"]', '["kept"]'])
})

test('a message at QoS 0 is taken as well', async () => {
  const frames = new ReceivedFrames()
  await start(frames)
  const client = await connect({ clientId: 'sensor-7' })
  await client.publishAsync('tussock/fern-2/columns', '512,23.1', { qos: 0 })
  const [frame] = await frames.count(1)
  expect(frame).toMatchObject({ source: 'mqtt:sensor-7', board: 'fern-2', format: 'columns' })
})

test('a message at QoS 2 is taken once', async () => {
  const frames = new ReceivedFrames()
  await start(frames)
  const client = await connect()
  await client.publishAsync('tussock/fern-2/pack', '["two"]', { qos: 2 })
  await client.publishAsync('tussock/fern-2/pack', '["next"]', { qos: 1 })
  expect(frames.texts()).toEqual(['["two"]', '["next"]'])
})

test('a board that says it is up and then loses its power is known to be lost, by its last will', async () => {
  const links: string[] = []
  await start(new ReceivedFrames(), links)
  const will = { topic: 'tussock/sedge-1/link', payload: Buffer.from('lost'), qos: 1 as const, retain: true }
  const client = await connect({ will, reconnectPeriod: 0 })
  await client.publishAsync('tussock/sedge-1/link', 'up', { qos: 1, retain: true })
  expect(links).toEqual(['sedge-1 up'])
  const watcher = await connect()
  const told = nextMessage(watcher)
  await watcher.subscribeAsync('tussock/+/link')
  expect((await told).text).toBe('up')
  const lost = nextMessage(watcher)
  client.stream.destroy()
  expect((await lost).text).toBe('lost')
  expect(links).toEqual(['sedge-1 up', 'sedge-1 lost'])
})

test('what a board leaves retained is there for who comes later', async () => {
  await start(new ReceivedFrames())
  const board = await connect()
  await board.publishAsync('tussock/sedge-1/link', 'up', { qos: 1, retain: true })
  await board.endAsync()
  const later = await connect()
  const message = nextMessage(later)
  await later.subscribeAsync('tussock/+/link', { qos: 1 })
  expect(await message).toEqual({ topic: 'tussock/sedge-1/link', text: 'up', isRetained: true })
})

test('wrong topics are acknowledged and their bytes handed on with the reason, so that no board repeats them for ever', async () => {
  const frames = new ReceivedFrames()
  await start(frames)
  const client = await connect()
  for (const topic of ['home/kitchen', 'tussock/sedge-1/asks', 'tussock/-x/pack', 'tussock/a/b/pack'])
    await client.publishAsync(topic, 'bytes', { qos: 1 })
  expect(frames.all.map(({ frame }) => frame.fault?.code)).toEqual([
    'E_TOPIC',
    'E_TOPIC',
    'E_BOARD_NAME',
    'E_TOPIC',
  ])
  expect(new Set(frames.texts())).toEqual(new Set(['bytes']))
})

test('what the hub asks reaches the board that listens to its own topic, and no other', async () => {
  const { say } = await start(new ReceivedFrames())
  const [sedge, fern] = [await connect(), await connect()]
  await sedge.subscribeAsync('tussock/sedge-1/ask')
  await fern.subscribeAsync('tussock/fern-2/ask')
  const heard: string[] = []
  for (const client of [sedge, fern]) client.on('message', (topic, words) => heard.push(`${topic} ${words}`))
  say('sedge-1', 'every 2.5')
  const last = nextMessage(fern)
  say('fern-2', 'who')
  await last
  await sedge.publishAsync('tussock/sedge-1/pack', '[]', { qos: 1 })
  expect(heard.sort()).toEqual(['tussock/fern-2/ask who', 'tussock/sedge-1/ask every 2.5'])
})

test('a port that another program listens on is named, with what to do', async () => {
  const other = createServer().listen(0, host)
  await once(other, 'listening')
  const { port } = other.address() as { port: number }
  const refused = startEmbeddedBroker(
    { host, port, tls: null },
    openToAll(),
    () => {},
    () => {},
    systemClock,
  )
  await expect(refused).rejects.toMatchObject({
    code: 'E_BROKER_PORT',
    said: expect.stringMatching(new RegExp(`MQTT port ${port} .*--mqtt-port.*--broker`)),
  })
  other.close()
})

test('closing the broker ends its connections and gives its port back', async () => {
  const first = await start(new ReceivedFrames())
  const client = await connect({ reconnectPeriod: 0 })
  const closed = whenClosed(client)
  const { port } = first
  await first.close()
  await closed
  broker = await startEmbeddedBroker(
    { host, port, tls: null },
    openToAll(),
    () => {},
    () => {},
    systemClock,
  )
  expect(broker.port).toBe(port)
})
