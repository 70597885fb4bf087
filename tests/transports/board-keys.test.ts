import { execFileSync } from 'node:child_process'
import { join } from 'node:path'
import mqtt, { type IClientOptions } from 'mqtt'
import { expect, test } from 'vitest'
import { BoardKeys } from '../../hub/access/board-keys.ts'
import { connectMqtt } from '../support/mqtt-client.ts'
import { type HubProcess, startHub } from '../support/running-hub.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'

const pack = (number: number) =>
  JSON.stringify([
    { n: 'startup', v: 1 },
    { n: 'message', v: number },
    { n: 'ph', u: 'mV', v: 84 + number },
  ])

async function makeKey(hub: HubProcess, board: string): Promise<string> {
  const response = await fetch(`${hub.address}/api/boards/${board}/key`, { method: 'POST' })
  return ((await response.json()) as { key: string }).key
}

/** What the broker says to a client that it does not let in; `in` when it does. */
function refusedConnection(url: string, options: IClientOptions): Promise<string> {
  const client = mqtt.connect(url, { reconnectPeriod: 0, ...options })
  return new Promise((resolve) => {
    client.once('connect', () => resolve('in'))
    client.once('error', (error) => resolve(error.message))
  })
}

test('a key opens for its own board alone, is not kept as it is, and can be replaced and removed', () => {
  const rows = new Map<string, Buffer>()
  const kept = {
    all: () => [...rows].map(([board, hash]) => ({ board, hash, madeMs: 0 })),
    set: (board: string, hash: Buffer) => void rows.set(board, hash),
    remove: (board: string) => rows.delete(board),
  }
  const keys = new BoardKeys(kept, false)
  const key = keys.make('sedge-1', 0)
  expect(key).toMatch(/^([a-z2-9]{6}-){3}[a-z2-9]{6}$/)
  expect(rows.get('sedge-1')!.toString('latin1')).not.toContain(key.slice(0, 6))
  expect(keys.admit('sedge-1', key)).toBe('sedge-1')
  expect(keys.admit('sedge-1', ` ${key.toUpperCase()} `)).toBe('sedge-1')
  for (const wrong of [undefined, '', key.slice(1), `${key}x`])
    expect(keys.admit('sedge-1', wrong)).toBe(false)
  expect(keys.admit('sedge-2', key)).toBe(false)
  expect(keys.admit(undefined, undefined)).toBe(false)
  expect(keys.maySpeakAs('sedge-1', 'sedge-2')).toBe(false)
  // after a restart too
  expect(new BoardKeys(kept, false).admit('sedge-1', key)).toBe('sedge-1')
  const second = keys.make('sedge-1', 1)
  expect(keys.admit('sedge-1', key)).toBe(false)
  expect(keys.remove('sedge-1')).toBe(true)
  expect(keys.admit('sedge-1', second)).toBe(false)
})

test('on a network a board shows its key, publishes under its own name only, and hears what is asked of itself', async () => {
  const hub = await startHub({ args: ['--mqtt-host', '0.0.0.0'] })
  const url = `mqtt://127.0.0.1:${hub.mqttPort}`
  const key = await makeKey(hub, 'sedge-1')
  await makeKey(hub, 'sedge-2')
  expect(await refusedConnection(url, {})).toMatch(/bad user ?name/i)
  expect(await refusedConnection(url, { username: 'sedge-1', password: 'guess' })).not.toBe('in')
  const board = await connectMqtt(url, { username: 'sedge-1', password: key, reconnectPeriod: 0 })
  const [own] = await board.subscribeAsync('tussock/sedge-1/ask', { qos: 1 })
  expect(own!.qos).toBe(1)
  // MQTT 3.1.1 §3.9.3: 128 is a subscription that was refused
  for (const other of ['tussock/sedge-2/ask', 'tussock/+/ask', 'tussock/#', '#']) {
    const granted = await board.subscribeAsync(other, { qos: 1 }).catch((error: Error) => error)
    expect(granted instanceof Error || (granted as { qos: number }[])[0]!.qos === 128, other).toBe(true)
  }
  await board.publishAsync('tussock/sedge-1/pack', pack(1), { qos: 1 })
  board.publish('tussock/sedge-2/pack', pack(2), { qos: 1 })
  const [refused] = await hub.until(
    () => hub.quarantined(),
    (list) => list.length > 0,
  )
  expect(refused).toMatchObject({ code: 'E_BOARD_KEY' })
  expect(refused!.message).toContain('sedge-2')
  expect((await hub.now()).tallies.readings).toBe(1)
  // pages are told of it at most twice a second
  await hub.until(
    () => hub.directory(),
    ({ boards }) => boards.some(({ name, hasKey }) => name === 'sedge-1' && hasKey),
  )
  await board.endAsync(true)
})

test('where boards may come without a key, one that has a key cannot be spoken for without it', async () => {
  const hub = await startHub()
  await makeKey(hub, 'sedge-1')
  const stranger = await connectMqtt(hub.mqttUrl, { reconnectPeriod: 0 })
  await stranger.publishAsync('tussock/rush-9/pack', pack(1), { qos: 1 })
  stranger.publish('tussock/sedge-1/pack', pack(1), { qos: 1 })
  const [refused] = await hub.until(
    () => hub.quarantined(),
    (list) => list.length > 0,
  )
  expect(refused!.code).toBe('E_BOARD_KEY')
  expect((await hub.now()).tallies.readings).toBe(1)
  await stranger.endAsync(true)
})

test('with a certificate of the teacher’s, the page comes over HTTPS and boards over TLS', async () => {
  const folder = temporaryFolder()
  const [cert, key] = [join(folder, 'hub.pem'), join(folder, 'hub.key')]
  execFileSync(
    'openssl',
    [
      ...['req', '-x509', '-newkey', 'rsa:2048', '-nodes', '-days', '2', '-subj', '/CN=localhost'],
      ...['-addext', 'subjectAltName=IP:127.0.0.1', '-keyout', key, '-out', cert],
    ],
    { stdio: 'ignore' },
  )
  const hub = await startHub({ args: ['--https-cert', cert, '--https-key', key, '--mqtts-port', '0'] })
  expect(hub.address).toMatch(/^https:/)
  const answer = execFileSync(
    'node',
    [
      '--input-type=module',
      '-e',
      `const r = await fetch('${hub.address}/api/you'); console.log(await r.text())`,
    ],
    { env: { ...process.env, NODE_EXTRA_CA_CERTS: cert }, encoding: 'utf8' },
  )
  expect(JSON.parse(answer)).toMatchObject({ role: 'teacher' })
  const secure = /mqtts:\/\/\S+/.exec(hub.stdout)![0]
  const board = await connectMqtt(secure, { rejectUnauthorized: false, reconnectPeriod: 0 })
  await board.publishAsync('tussock/sedge-1/pack', pack(1), { qos: 1 })
  await board.endAsync()
})
