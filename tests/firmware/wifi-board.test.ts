import { expect, test } from 'vitest'
import { latestReadings } from '../support/latest-readings.ts'
import { connectMqtt, nextMessage } from '../support/mqtt-client.ts'
import { RealBroker } from '../support/real-broker.ts'
import { type HubProcess, startHub } from '../support/running-hub.ts'
import { WifiBoard, type WifiOptions } from './wifi-board.ts'

/** One step of a twelve-bit converter, mV. */
const COUNT_MILLIVOLT = 3300 / 4096

function plugIn(port: number, options: Partial<WifiOptions> = {}): WifiBoard {
  return new WifiBoard({ port, ...options, settings: { INTERVAL_MS: 1000, ...options.settings } })
}

function messages(hub: HubProcess, count: number) {
  return hub.until(
    () => hub.now(),
    ({ tallies }) => tallies.messages >= count,
  )
}

test('all five probes of the Wi-Fi board come out of the hub as they were put in', async () => {
  const hub = await startHub()
  const board = plugIn(hub.mqttPort)
  board.volt(34, 1.4137)
  board.volt(35, 2.0251)
  board.volt(33, 1.9)
  board.set('lightCount', 12_345)
  board.set('sixteenths', -37)
  board.set('cupsMillihertz', 12_000)
  board.set('cupsBounces', 4)
  board.set('cupsBounceUs', 300)
  await messages(hub, 3)
  const latest = await latestReadings(hub)
  expect(Math.abs(latest['rush-1/ph']!.signal - 1413.7)).toBeLessThanOrEqual(COUNT_MILLIVOLT)
  expect(Math.abs(latest['rush-1/moisture']!.signal - 2025.1)).toBeLessThanOrEqual(COUNT_MILLIVOLT)
  expect(latest['rush-1/light']).toMatchObject({ signal: 12_345, unit: 'count' })
  expect(latest['rush-1/temperature']).toMatchObject({ signal: -2.3125, unit: 'Cel' })
  // pulses are as late as the machine is busy: one interval of a second that was not held up is enough
  await hub.until(
    () => latestReadings(hub),
    (readings) => Math.abs(readings['rush-1/wind']!.signal - 12) <= 1,
  )
  expect(latest['rush-1/battery']).toMatchObject({ signal: 3800, unit: 'mV' })
  const { boards } = await hub.directory()
  expect(boards[0]).toMatchObject({ name: 'rush-1', link: 'up', missed: 0 })
  expect((await hub.now()).tallies).toMatchObject({ repeats: 0, quarantined: 0 })
  // every step of 50 ms, so that a program that stands still is started again
  expect(board.fed).toBeGreaterThan(20)
})

test('on a network the Wi-Fi board comes in with the key that was made for it, and without it stays out', async () => {
  const hub = await startHub({ args: ['--mqtt-host', '0.0.0.0'] })
  const response = await fetch(`${hub.address}/api/boards/rush-1/key`, { method: 'POST' })
  const { key } = (await response.json()) as { key: string }
  plugIn(hub.mqttPort, { settings: { BOARD_NAME: 'rush-2' } })
  plugIn(hub.mqttPort, { settings: { BOARD_KEY: key } })
  await messages(hub, 2)
  expect((await hub.directory()).boards.map(({ name }) => name)).toEqual(['rush-1'])
})

test('the Wi-Fi board says who it is and what is missing, samples as often as it is told, and takes the time', async () => {
  const hub = await startHub()
  const board = plugIn(hub.mqttPort, { settings: { INTERVAL_MS: 60_000 } })
  board.set('hasLight', 0)
  board.set('hasThermometer', 0)
  await messages(hub, 1)
  const ask = (words: string) => hub.send('POST', '/api/boards/rush-1/ask', { words })
  await ask('who')
  const { boards } = await hub.until(
    () => hub.directory(),
    (directory) => directory.boards[0]!.about !== null,
  )
  expect(boards[0]!.about).toMatch(/^Wi-Fi board, start-up \d+; every 60000 ms; .*no light; no temperature$/)
  await ask('time')
  await ask('every 1.5')
  const before = (await hub.now()).tallies.messages
  await messages(hub, before + 2)
  const { latest } = (await hub.directory()).channels[0]!
  const explained = await hub.get<{ timeOrigin: string; time: string; message: { arrived: string } }>(
    `/api/readings/${latest![0]}`,
  )
  expect(explained.timeOrigin).toBe('board clock')
  expect(Math.abs(Date.parse(explained.message.arrived) - Date.parse(explained.time))).toBeLessThan(1500)
  board.set('hasLight', 1)
  board.set('hasThermometer', 1)
  await hub.until(
    () => hub.directory(),
    ({ channels }) => channels.length === 6,
  )
})

test('a lost link: the broker gives the last will, the board keeps its messages and sends them with their own times', async () => {
  const hub = await startHub()
  const board = plugIn(hub.mqttPort)
  await messages(hub, 2)
  board.cutLink(true)
  const linkIs = (link: string) =>
    hub.until(
      () => hub.directory(),
      ({ boards }) => boards[0]?.link === link,
    )
  await linkIs('lost')
  const { messages: before } = (await hub.now()).tallies
  // it tries again after one second, and then after two
  const from = board.said.length
  await board.prints(/no broker/, from)
  await board.prints(/no broker/, board.said.length)
  board.cutLink(false)
  await linkIs('up')
  await messages(hub, before + 4)
  const { boards } = await hub.directory()
  expect(boards[0]!.missed).toBe(0)
  expect((await hub.now()).tallies.quarantined).toBe(0)
  const csvTimes = await timesOf(hub, 'wind')
  // one a second all through the gap
  for (const [place, time] of csvTimes.entries())
    if (place > 0) expect(Math.abs(time - csvTimes[place - 1]! - 1000)).toBeLessThan(700)
})

test('a backlog that is full drops its oldest messages and says so; Wi-Fi lost and found', async () => {
  const hub = await startHub()
  const board = plugIn(hub.mqttPort, { settings: { ROOM: 5 }, speed: 4 })
  await messages(hub, 1)
  board.set('hasWifi', 0)
  board.cutLink(true)
  await board.prints(/no Wi-Fi/)
  board.set('hasWifi', 1)
  board.cutLink(false)
  await hub.until(
    () => hub.directory(),
    ({ boards }) => boards[0]!.missed > 5,
  )
  const dropped = await hub.until(
    async () => (await hub.directory()).channels.find(({ channel }) => channel === 'dropped'),
    (channel) => channel !== undefined,
  )
  expect(dropped!.latest![3]).toBeGreaterThan(5)
})

test('a power cut: what was acknowledged is stored, the will comes, and the next start-up begins at 1', async () => {
  const hub = await startHub()
  const board = plugIn(hub.mqttPort, { flash: '41' })
  await messages(hub, 2)
  expect(board.flash).toBe('42')
  const flash = await board.cutPower()
  await hub.until(
    () => hub.directory(),
    ({ boards }) => boards[0]?.link === 'lost',
  )
  const { messages: before } = (await hub.now()).tallies
  plugIn(hub.mqttPort, { flash })
  await messages(hub, before + 1)
  const { boards } = await hub.until(
    () => hub.directory(),
    (directory) => directory.boards[0]?.startup === 43,
  )
  expect(boards[0]).toMatchObject({ link: 'up', missed: 0 })
})

test('a board without a stored count draws a start-up number that none before is likely to have had', async () => {
  const broker = await RealBroker.start()
  const watcher = await connectMqtt(broker.url)
  await watcher.subscribeAsync('tussock/rush-1/pack')
  const startups: number[] = []
  for (const _ of [1, 2]) {
    const heard = nextMessage(watcher)
    const board = plugIn(broker.port)
    const [first] = JSON.parse((await heard).text) as [{ n: string; v: number }]
    expect(first.n).toBe('startup')
    startups.push(first.v)
    await board.cutPower()
  }
  expect(startups[0]).not.toBe(startups[1])
})

test('through mosquitto: a hub that is away for a while gets all of it, and the thermistor gives ohms', async () => {
  const broker = await RealBroker.start()
  const hub = await startHub({ args: ['--broker', broker.url] })
  const board = plugIn(broker.port, { settings: { THERMISTOR_PIN: 32 } })
  board.volt(32, 1.65)
  await messages(hub, 2)
  await broker.stop()
  await board.prints(/link lost/)
  await broker.start()
  await hub.until(
    () => hub.directory(),
    ({ boards }) => boards[0]?.link === 'up',
  )
  const { messages: before } = (await hub.now()).tallies
  await messages(hub, before + 3)
  const { boards } = await hub.directory()
  expect(boards[0]!.missed).toBe(0)
  expect(Math.abs((await latestReadings(hub))['rush-1/temperature']!.signal - 10_000)).toBeLessThanOrEqual(10)
})

async function timesOf(hub: HubProcess, channel: string): Promise<number[]> {
  const { channels } = await hub.directory()
  const { latest } = channels.find((one) => one.channel === channel)!
  const times: number[] = []
  // readings of a message have neighbouring numbers, messages are 1024 apart
  for (let id = latest![0]; id > 0; id -= 1024) {
    const response = await hub.request(`/api/readings/${id}`)
    if (!response.ok) break
    const reading = (await response.json()) as { channel: string; time: string }
    if (reading.channel === channel) times.unshift(Date.parse(reading.time))
  }
  return times
}
