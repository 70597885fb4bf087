import { readFileSync } from 'node:fs'
import { connect, type Socket } from 'node:net'
import { expect, test } from 'vitest'
import { connectMqtt } from '../support/mqtt-client.ts'
import {
  connectPacket,
  mqttNumber,
  mqttPacket,
  mqttText,
  pingPacket,
  publishPacket,
  subscribePacket,
} from '../support/mqtt-packets.ts'
import { type HubProcess, startHub } from '../support/running-hub.ts'
import { pick } from './from-schema.ts'
import { mutate, seeded } from './mutations.ts'

/** Connections; `TUSSOCK_FUZZ=1000000` for the long run. */
const INPUTS = Number(process.env['TUSSOCK_FUZZ'] ?? 2000)
const AT_ONCE = 20
/** A client that is not answered within this time hangs up; one that is listens a little longer. */
const LISTENS_MS = 100
const LISTENS_ON_MS = 10
/** So much may the hub grow while strangers talk to it; its parsers and tables warm up. */
const GROWS_BYTES = 250_000_000

const pack = Buffer.from(
  '[{"n":"sedge-1/startup","v":7},{"n":"sedge-1/message","v":12},{"n":"sedge-1/ph","u":"mV","v":84.5}]',
)
const hello = connectPacket('sedge-1', { will: { topic: 'tussock/sedge-1/link', payload: 'lost' } })
const mqttSeeds: Buffer[] = [
  hello,
  Buffer.concat([hello, publishPacket('tussock/sedge-1/pack', pack, { qos: 1 })]),
  Buffer.concat([
    hello,
    publishPacket('tussock/sedge-1/columns', Buffer.from('512,23.1'), { isRetained: true }),
  ]),
  Buffer.concat([
    hello,
    subscribePacket(1, 'tussock/sedge-1/ask', 'tussock/+/pack', '#'),
    publishPacket('tussock/sedge-1/pack', pack, { qos: 2, number: 9 }),
    // §3.6, §3.10, §3.14
    mqttPacket(0x62, mqttNumber(9)),
    mqttPacket(0xa2, mqttNumber(3), mqttText('tussock/sedge-1/ask')),
    pingPacket,
    mqttPacket(0xe0),
  ]),
  connectPacket('', { isClean: false, name: 'sedge-1', key: 'guess' }),
  // a length of 256 MB and little behind it; a first byte that says nothing
  Buffer.from([0x30, 0xff, 0xff, 0xff, 0x7f, 0, 1]),
  Buffer.concat([hello, Buffer.from([0x32, 0xff, 0xff, 0x7f])]),
  Buffer.from([0xf0, 0x00]),
]

const httpSeeds: Buffer[] = [
  'GET /api/hub HTTP/1.1\r\nhost: 127.0.0.1\r\naccept: */*\r\n\r\n',
  'GET /api/export/readings.csv?set=clean&from=2026-06-12T09:30:00Z HTTP/1.1\r\nhost: localhost:80\r\n\r\n',
  'GET /api/stream?since=0 HTTP/1.1\r\nhost: localhost\r\nlast-event-id: 7\r\n\r\n',
  'GET /../../etc/passwd HTTP/1.1\r\nhost: [::1]:80\r\ncookie: tussock_session=x; a="b\r\n\r\n',
  'POST /api/enter HTTP/1.1\r\nhost: localhost\r\norigin: http://localhost\r\ncontent-type: application/json\r\ncontent-length: 29\r\n\r\n{"as":"class","secret":"moss"}',
  'PUT /api/surveys/a HTTP/1.1\r\nhost: localhost\r\ntransfer-encoding: chunked\r\ncontent-type: application/json\r\n\r\n2\r\n{}\r\n0\r\n\r\n',
  'HEAD / HTTP/1.0\r\n\r\n',
  'OPTIONS * HTTP/1.1\r\nhost: localhost\r\nexpect: 100-continue\r\nupgrade: websocket\r\nconnection: upgrade\r\n\r\n',
].map((text) => Buffer.from(text))

/** Says bytes, in pieces sometimes, listens a little, and hangs up. @returns what was answered */
function say(port: number, bytes: Uint8Array, chance: () => number): Promise<string> {
  return new Promise((resolve) => {
    let said = ''
    const socket: Socket = connect(port, '127.0.0.1', () => {
      const cut = chance() < 0.2 ? Math.floor(chance() * bytes.length) : 0
      if (cut > 0) socket.write(bytes.subarray(0, cut))
      setImmediate(() => socket.write(bytes.subarray(cut)))
      setTimeout(() => socket.destroy(), LISTENS_MS)
    })
    socket.setNoDelay(true)
    socket.on('data', (chunk) => {
      if (said === '') setTimeout(() => socket.destroy(), LISTENS_ON_MS)
      said += chunk.toString('latin1', 0, 40)
    })
    socket.on('error', () => {})
    socket.once('close', () => resolve(said))
  })
}

/** The beginning stays as it is mostly, so that what comes after it is looked at too. */
function mutatedFrom(seed: Buffer, chance: () => number): Uint8Array {
  const kept = chance() < 0.25 ? 0 : Math.floor(chance() * seed.length)
  return Buffer.concat([seed.subarray(0, kept), mutate(seed.subarray(kept), chance)])
}

/** Many strangers at a time. @returns every answer */
async function strangers(port: number, seeds: readonly Buffer[], chance: () => number): Promise<string[]> {
  const answers: string[] = []
  let left = INPUTS
  await Promise.all(
    Array.from({ length: AT_ONCE }, async () => {
      while (left-- > 0) answers.push(await say(port, mutatedFrom(pick(seeds, chance), chance), chance))
    }),
  )
  return answers
}

function residentBytes(pid: number): number {
  return Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))![1]) * 1024
}

/** A board that behaves is served all the while, and has lost nothing at the end. */
async function boardBeside(hub: HubProcess, disturb: () => Promise<void>): Promise<void> {
  const board = await connectMqtt(hub.mqttUrl, { clientId: 'fern-2', reconnectPeriod: 0 })
  let isOver = false
  let number = 0
  const publishing = (async () => {
    while (!isOver) {
      const records = [
        { n: 'startup', v: 1 },
        { n: 'message', v: ++number },
        { n: 'light', u: 'count', v: number },
      ]
      await board.publishAsync('tussock/fern-2/pack', JSON.stringify(records), { qos: 1 })
      await new Promise((resolve) => setTimeout(resolve, 5))
    }
  })()
  await disturb().finally(() => {
    isOver = true
  })
  await publishing
  // pages are told of it at most twice a second
  const fern = () => hub.directory().then(({ boards }) => boards.find(({ name }) => name === 'fern-2')!)
  expect(await hub.until(fern, ({ messages }) => messages >= number)).toMatchObject({
    messages: number,
    missed: 0,
    trouble: null,
  })
}

test('mutated MQTT packets neither stop the broker nor fill its memory, and a board beside is served', async () => {
  const hub = await startHub()
  const before = residentBytes(hub.pid)
  await boardBeside(hub, async () => {
    const answers = await strangers(hub.mqttPort, mqttSeeds, seeded(20_261_129))
    // a good part got as far as being let in
    expect(answers.filter((said) => said.startsWith('\x20\x02\x00\x00')).length).toBeGreaterThan(INPUTS / 20)
  })
  expect(hub.stderr).toBe('')
  expect(residentBytes(hub.pid) - before).toBeLessThan(GROWS_BYTES)
  for (const { message } of await hub.quarantined()) expect(message.length).toBeLessThan(1000)
}, 3_600_000)

test('mutated HTTP requests are answered or let go, never with a failure, and a board beside is served', async () => {
  const hub = await startHub()
  const before = residentBytes(hub.pid)
  await boardBeside(hub, async () => {
    const answers = await strangers(Number(new URL(hub.address).port), httpSeeds, seeded(20_261_130))
    expect(answers.filter((said) => /^HTTP\/1.1 5/.test(said))).toEqual([])
    expect(answers.filter((said) => /^HTTP\/1.1 2/.test(said)).length).toBeGreaterThan(INPUTS / 50)
    expect(answers.filter((said) => /^HTTP\/1.1 4/.test(said)).length).toBeGreaterThan(INPUTS / 20)
  })
  expect(hub.stderr).toBe('')
  expect(residentBytes(hub.pid) - before).toBeLessThan(GROWS_BYTES)
}, 3_600_000)
