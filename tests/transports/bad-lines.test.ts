import { connect } from 'node:net'
import { expect, test } from 'vitest'
import { withTrailer } from '../../hub/wire/checksum.ts'
import { connectMqtt } from '../support/mqtt-client.ts'
import { type HubProcess, startHub } from '../support/running-hub.ts'
import { CabledBoard } from '../support/serial-bench.ts'

const good = (message: number, millivolt = 84) =>
  `[{"bn":"sedge-1/","n":"startup","v":7},{"n":"message","v":${message}},{"n":"ph","u":"mV","v":${millivolt}}]`
const noise = Buffer.from(Array.from({ length: 200 }, (_, place) => (place * 37 + 0x80) & 0xff)).filter(
  (byte) => byte !== 10 && byte !== 13,
)
const notUtf8 = Buffer.from('[{"n":"sedge-1/ph\xff","v":1}]', 'latin1')

/** What goes wrong on a wire, and the code under which it is kept. */
const bad: [what: string, bytes: Uint8Array, code: string][] = [
  ['half a line', Buffer.from(good(9).slice(0, 40)), 'E_LINE_UNREADABLE'],
  ['the other half', Buffer.from(good(9).slice(40)), 'E_LINE_UNREADABLE'],
  ['binary noise', noise, 'E_NOT_TEXT'],
  ['invalid UTF-8', notUtf8, 'E_NOT_TEXT'],
  ['wrong checksum', Buffer.from(`${good(9)}#0000`), 'E_CHECKSUM'],
  ['one digit changed under way', Buffer.from(withTrailer(good(9)).replace('84', '94')), 'E_CHECKSUM'],
  ['missing name', Buffer.from('[{"v":1}]'), 'E_SENML'],
  ['NaN', Buffer.from(good(9).replace('84', 'NaN')), 'E_LINE_UNREADABLE'],
  ['a number as text', Buffer.from(good(9).replace('84', '"84"')), 'E_SENML'],
  ['a field that must be understood', Buffer.from('[{"n":"sedge-1/ph","v":1,"x_":2}]'), 'E_SENML'],
  ['1001 records', Buffer.from(JSON.stringify(Array(1001).fill({ n: 'a/x', v: 1 }))), 'E_TOO_MANY_RECORDS'],
  ['a board name too long', Buffer.from(`[{"n":"${'a'.repeat(65)}/x","v":1}]`), 'E_BOARD_NAME'],
  ['a greeting', Buffer.from('Hello from the hedge'), 'E_LINE_UNREADABLE'],
]

async function expectAllKept(hub: HubProcess, extra: Record<string, number>): Promise<void> {
  const quarantined = await hub.quarantined()
  const counts: Record<string, number> = {}
  for (const { code, remedy, arrived, message } of quarantined) {
    counts[code] = (counts[code] ?? 0) + 1
    expect(remedy, code).not.toBe('')
    expect(Math.abs(Date.parse(arrived) - Date.now())).toBeLessThan(60_000)
    expect(message).not.toBe('')
  }
  const expected: Record<string, number> = { ...extra }
  for (const [, , code] of bad) expected[code] = (expected[code] ?? 0) + 1
  expect(counts).toEqual(expected)
}

test('whatever comes over a cable that is no message is kept with its reason, and what follows is read', async () => {
  const board = await CabledBoard.plugIn()
  const hub = await startHub({ args: ['--serial', board.path] })
  await hub.until(
    () => hub.directory(),
    ({ ports }) => ports[0]?.state === 'open',
  )
  let message = 0
  const sayGood = () => board.say(`${good(++message)}\r\n`)
  sayGood()
  for (const [, bytes] of bad) {
    board.say(Buffer.concat([bytes, Buffer.from('\n')]))
    sayGood()
  }
  const megabyte = Buffer.alloc(1_000_000, '0123456789')
  board.say(Buffer.concat([megabyte, Buffer.from('\n')]))
  sayGood()
  board.say('\r\n\n')
  sayGood()
  await board.hears(`kept 7 ${message}`)
  expect((await hub.now()).tallies).toMatchObject({ readings: message, messages: message, repeats: 0 })
  const pieces = Math.ceil((megabyte.length + 1) / 65_536)
  await expectAllKept(hub, { E_LINE_TOO_LONG: pieces })
  // nothing is lost: every byte but the ends of lines is there
  const sent = megabyte.length + 1 + bad.reduce((sum, [, bytes]) => sum + bytes.length, 0)
  expect((await hub.quarantined()).reduce((sum, { length }) => sum + length, 0)).toBe(sent)
  expect(await hub.stop()).toMatchObject({ code: 0 })
  expect(hub.stderr).toBe('')
})

test('whatever comes over MQTT that is no message is acknowledged and kept with its reason, and what follows is read', async () => {
  const hub = await startHub()
  const client = await connectMqtt(hub.mqttUrl)
  let message = 0
  for (const [, bytes] of bad) {
    await client.publishAsync('tussock/sedge-1/pack', Buffer.from(bytes), { qos: 1 })
    await client.publishAsync('tussock/sedge-1/pack', good(++message), { qos: 1 })
  }
  const publish = (topic: string, bytes: string | Buffer) => client.publishAsync(topic, bytes, { qos: 1 })
  await publish('tussock/sedge-1/pack', Buffer.alloc(1_000_000, '7'))
  await publish('tussock/sedge-1/pack', '')
  await publish('tussock/fern-2/pack', good(99))
  await publish('garden/gnome', 'hello')
  await publish('tussock/-/pack', good(99))
  await publish('tussock/fern-2/columns', '1;2,5;x')
  await publish('tussock/sedge-1/pack', good(++message))
  expect((await hub.now()).tallies).toMatchObject({ readings: message, messages: message })
  const [emptyPack, columns] = [1, 1]
  await expectAllKept(hub, {
    E_LINE_UNREADABLE: emptyPack + columns,
    E_MESSAGE_TOO_LONG: 1,
    E_OTHER_BOARD: 1,
    E_TOPIC: 1,
    E_BOARD_NAME: 1,
  })
})

test('bytes that are no MQTT at all cost only their own connection', async () => {
  const hub = await startHub()
  for (const bytes of [noise, Buffer.from('GET / HTTP/1.1\r\n\r\n'), Buffer.alloc(100_000, 0xff)]) {
    const socket = connect(hub.mqttPort, '127.0.0.1')
    const closed = new Promise<void>((resolve) => socket.once('close', () => resolve()))
    socket.on('error', () => {})
    socket.resume()
    socket.end(bytes)
    await closed
  }
  const client = await connectMqtt(hub.mqttUrl)
  await client.publishAsync('tussock/sedge-1/pack', good(1), { qos: 1 })
  expect((await hub.now()).tallies).toMatchObject({ readings: 1 })
})

test('two boards with one name are said to be two, and the second’s message is not lost', async () => {
  const hub = await startHub()
  const [one, two] = [await connectMqtt(hub.mqttUrl), await connectMqtt(hub.mqttUrl)]
  await one.publishAsync('tussock/sedge-1/pack', good(1, 84), { qos: 1 })
  await two.publishAsync('tussock/sedge-1/pack', good(1, 99), { qos: 1 })
  const { boards } = await hub.until(
    () => hub.directory(),
    ({ boards }) => boards.some(({ trouble }) => trouble !== null),
  )
  expect(boards).toMatchObject([
    { name: 'sedge-1', trouble: expect.stringContaining('Two boards seem to use the name "sedge-1"') },
  ])
  const [second] = await hub.quarantined()
  expect(second).toMatchObject({ code: 'E_NAME_CLASH', board: 'sedge-1', length: good(1, 99).length })
  expect(second!.shown).toContain('"v":99')
})

test('two boards with one name that never use the same numbers are noticed by their taking turns', async () => {
  const hub = await startHub()
  const [one, two] = [await connectMqtt(hub.mqttUrl), await connectMqtt(hub.mqttUrl)]
  for (const [client, startup] of [
    [one, 1],
    [two, 2],
    [one, 1],
    [two, 2],
  ] as const) {
    const pack = `[{"bn":"sedge-1/","n":"startup","v":${startup}},{"n":"ph","v":1}]`
    await client.publishAsync('tussock/sedge-1/pack', pack, { qos: 1 })
  }
  const { boards } = await hub.until(
    () => hub.directory(),
    ({ boards }) => boards.some(({ trouble }) => trouble !== null),
  )
  expect(boards).toHaveLength(1)
  expect((await hub.now()).tallies.readings).toBe(4)
})
