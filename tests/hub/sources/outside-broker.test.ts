import { afterEach, expect, test } from 'vitest'
import { systemClock } from '../../../hub/clock.ts'
import type { MqttSource } from '../../../hub/sources/mqtt-source.ts'
import { useOutsideBroker } from '../../../hub/sources/outside-broker.ts'
import { connectMqtt, nextMessage } from '../../support/mqtt-client.ts'
import { freePort, RealBroker } from '../../support/real-broker.ts'
import { ReceivedFrames } from '../../support/received-frames.ts'

const ends: (() => Promise<unknown>)[] = []
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end()
})

/** The hub's side of a broker, with its changes of state to wait for. */
class HubSide {
  readonly mqtt: MqttSource
  readonly links: string[] = []
  #wake: (() => void)[] = []

  constructor(url: string, frames: ReceivedFrames, clientId = 'hub') {
    this.mqtt = useOutsideBroker(
      url,
      clientId,
      frames.receive,
      (board, isUp) => {
        this.links.push(`${board} ${isUp ? 'up' : 'lost'}`)
        this.#tell()
      },
      systemClock,
      () => this.#tell(),
    )
    ends.push(() => this.mqtt.close())
  }

  async until(isSo: () => boolean): Promise<void> {
    while (!isSo()) await new Promise<void>((resolve) => this.#wake.push(resolve))
  }

  connected(): Promise<void> {
    return this.until(() => this.mqtt.status().state === 'open')
  }

  #tell(): void {
    for (const wake of this.#wake.splice(0)) wake()
  }
}

test('what boards publish to a broker that is already there reaches the hub', async () => {
  const broker = await RealBroker.start()
  const frames = new ReceivedFrames()
  const hub = new HubSide(broker.url, frames)
  await hub.connected()
  const will = { topic: 'tussock/sedge-1/link', payload: Buffer.from('lost'), qos: 1 as const }
  const sedge = await connectMqtt(broker.url, { will, reconnectPeriod: 0 })
  await sedge.publishAsync('tussock/sedge-1/link', 'up', { qos: 1 })
  await sedge.publishAsync('tussock/sedge-1/pack', '["pack"]', { qos: 1 })
  await sedge.publishAsync('tussock/sedge-1/columns', '1,2', { qos: 0 })
  const received = await frames.count(2)
  expect(received.map(({ format, board }) => [format, board])).toEqual([
    ['pack', 'sedge-1'],
    ['columns', 'sedge-1'],
  ])
  expect(frames.texts()).toEqual(['["pack"]', '1,2'])
  sedge.stream.destroy()
  await hub.until(() => hub.links.length === 2)
  expect(hub.links).toEqual(['sedge-1 up', 'sedge-1 lost'])
})

test('what was not durable when the hub went is sent again by the broker, and what was durable is not', async () => {
  const broker = await RealBroker.start()
  const unlucky = new ReceivedFrames((_frame, place) => (place === 0 ? { error: null, replies: [] } : null))
  const first = new HubSide(broker.url, unlucky)
  await first.connected()
  const sedge = await connectMqtt(broker.url)
  for (const text of ['["durable"]', '["lost with the hub"]'])
    await sedge.publishAsync('tussock/sedge-1/pack', text, { qos: 1 })
  await unlucky.count(2)
  await first.mqtt.close()
  const frames = new ReceivedFrames()
  const second = new HubSide(broker.url, frames)
  await second.connected()
  await sedge.publishAsync('tussock/sedge-1/pack', '["after"]', { qos: 1 })
  await frames.count(2)
  expect(frames.texts()).toEqual(['["lost with the hub"]', '["after"]'])
})

test('a message the store refused is sent again at the next connection', async () => {
  const broker = await RealBroker.start()
  const frames = new ReceivedFrames((_frame, place) => ({
    error: place === 0 ? new Error('disk full') : null,
    replies: [],
  }))
  const first = new HubSide(broker.url, frames)
  await first.connected()
  const sedge = await connectMqtt(broker.url)
  await sedge.publishAsync('tussock/sedge-1/pack', '["refused once"]', { qos: 1 })
  await frames.count(1)
  await first.mqtt.close()
  await new HubSide(broker.url, frames).connected()
  await frames.count(2)
  expect(frames.texts()).toEqual(['["refused once"]', '["refused once"]'])
})

test('a broker that is switched off and comes back is found again, with what was published before the hub was', async () => {
  const broker = await RealBroker.start()
  const frames = new ReceivedFrames()
  const hub = new HubSide(broker.url, frames)
  await hub.connected()
  await broker.stop()
  await hub.until(() => hub.mqtt.status().state === 'gone')
  expect(hub.mqtt.status().trouble).toMatch(
    /^E_BROKER_GONE: The broker at mqtt:\/\/127\.0\.0\.1:\d+ does not answer .*Start the broker again/,
  )
  await broker.start()
  const sedge = await connectMqtt(broker.url)
  await sedge.publishAsync('tussock/sedge-1/pack', '["meanwhile"]', { qos: 1 })
  await frames.count(1)
  await hub.connected()
  await sedge.publishAsync('tussock/sedge-1/pack', '["afterwards"]', { qos: 1 })
  await frames.count(2)
  expect(frames.texts()).toEqual(['["meanwhile"]', '["afterwards"]'])
  expect(hub.mqtt.status()).toEqual({ state: 'open', trouble: null })
})

test('a broker that is killed and has forgotten the hub is subscribed to again', async () => {
  const broker = await RealBroker.start()
  const frames = new ReceivedFrames()
  const hub = new HubSide(broker.url, frames)
  await hub.connected()
  await broker.kill()
  await hub.until(() => hub.mqtt.status().state === 'gone')
  await broker.start()
  await hub.connected()
  const sedge = await connectMqtt(broker.url)
  await sedge.publishAsync('tussock/sedge-1/pack', '["again"]', { qos: 1 })
  await frames.count(1)
  expect(frames.texts()).toEqual(['["again"]'])
})

test('what a killed broker had handed over is taken in all the same, though it can no longer be acknowledged', async () => {
  const broker = await RealBroker.start()
  const frames = new ReceivedFrames((_frame, place) => (place === 0 ? null : { error: null, replies: [] }))
  const hub = new HubSide(broker.url, frames)
  await hub.connected()
  const sedge = await connectMqtt(broker.url, { reconnectPeriod: 0 })
  const texts = Array.from({ length: 10 }, (_, place) => `["${place}"]`)
  await Promise.all(texts.map((text) => sedge.publishAsync('tussock/sedge-1/pack', text, { qos: 1 })))
  await frames.count(1)
  await broker.kill()
  await hub.until(() => hub.mqtt.status().state === 'gone')
  frames.all[0]!.settle(null, () => [])
  await frames.count(texts.length)
  expect(frames.texts()).toEqual(texts)
})

test('what the hub asks goes to the board’s topic of that broker', async () => {
  const broker = await RealBroker.start()
  const hub = new HubSide(broker.url, new ReceivedFrames())
  await hub.connected()
  const sedge = await connectMqtt(broker.url)
  await sedge.subscribeAsync('tussock/sedge-1/ask', { qos: 1 })
  const asked = nextMessage(sedge)
  hub.mqtt.say('sedge-1', 'every 5')
  expect((await asked).text).toBe('every 5')
})

test('a broker that is not there is named without the password of its address', async () => {
  const port = await freePort()
  for (const user of ['class:s3cret', 'class:s3c%40ret', 'class:s3@cret', 's3cret'] as const) {
    const hub = new HubSide(`mqtt://${user}@127.0.0.1:${port}`, new ReceivedFrames(), `hub-${user.length}`)
    await hub.until(() => /ECONNREFUSED/.test(hub.mqtt.status().trouble ?? ''))
    const shown = `${hub.mqtt.description} ${hub.mqtt.status().trouble}`
    expect(shown).toContain(`mqtt://127.0.0.1:${port}`)
    expect(shown).not.toMatch(/s3c|cret|class/)
    await hub.mqtt.close()
  }
})
