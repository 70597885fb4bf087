import { statSync, writeFileSync } from 'node:fs'
import { request } from 'node:http'
import { networkInterfaces } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { Attempts } from '../../../hub/access/attempts.ts'
import { Door } from '../../../hub/access/door.ts'
import { isOwnHost } from '../../../hub/access/host-names.ts'
import { isEnough, roleNeeded } from '../../../hub/access/may.ts'
import { isSecret, keepSecret } from '../../../hub/access/passphrase.ts'
import type { HubError } from '../../../hub/errors.ts'
import { isLoopbackAddress } from '../../../hub/http/addresses.ts'
import { exampleSurvey } from '../../support/example-survey.ts'
import { startHub } from '../../support/running-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'
import { runTussock, spawnTussock } from '../../support/tussock-command.ts'

describe('who may do what', () => {
  test.each([
    ['GET', '/api/hub', 'class'],
    ['GET', '/api/export/readings.csv', 'class'],
    ['POST', '/api/surveys/a/spots', 'class'],
    ['POST', '/api/surveys/a/spots/x-1/amend', 'class'],
    ['POST', '/api/surveys/a/traps/t1/check', 'class'],
    ['POST', '/api/surveys/a/traps', 'teacher'],
    ['POST', '/api/plan/draw', 'class'],
    ['POST', '/api/surveys/a/plan/preview', 'class'],
    ['POST', '/api/surveys/a/plan', 'teacher'],
    ['POST', '/api/surveys/a/calibrations/preview', 'class'],
    ['POST', '/api/enter', 'stranger'],
    ['GET', '/survey/a', 'stranger'],
    ['PUT', '/api/surveys/a', 'teacher'],
    ['POST', '/api/surveys/a/placements', 'teacher'],
    ['POST', '/api/surveys/a/decisions', 'teacher'],
    ['DELETE', '/api/ports', 'teacher'],
    ['POST', '/api/surveys/a/spots/x/../placements', 'teacher'],
    ['POST', '/api/anything/new', 'teacher'],
    ['GET', '/api/anything/new', 'class'],
  ] as const)('%s %s needs %s', (method, path, role) => {
    expect(roleNeeded(method, path)).toBe(role)
  })

  test('the teacher may what the class may, and the class what a stranger may', () => {
    expect(isEnough('teacher', 'class') && isEnough('class', 'stranger')).toBe(true)
    expect(isEnough('class', 'teacher') || isEnough('stranger', 'class')).toBe(false)
  })

  // RFC 1122 §3.2.1.3 (127/8), RFC 4291 §2.5.3 and §2.5.5.2
  test('only the loopback is the hub’s own keyboard', () => {
    for (const own of ['127.0.0.1', '127.8.8.8', '::1', '::ffff:127.0.0.1'])
      expect(isLoopbackAddress(own)).toBe(true)
    for (const other of ['128.0.0.1', '192.0.2.1', '::ffff:192.0.2.1', '127.0.0.1.example', '', 'unknown'])
      expect(isLoopbackAddress(other)).toBe(false)
  })

  test('a name that was pointed at this machine from elsewhere is not its own', () => {
    const names = ['192.0.2.7', 'tussock.local']
    for (const host of [
      '127.0.0.1:4780',
      'localhost',
      '[::1]:80',
      '192.0.2.7:4780',
      'Tussock.local:4780',
      'tussock.local.',
    ])
      expect(isOwnHost(host, names), host).toBe(true)
    for (const host of [
      'evil.example',
      'evil.example:4780',
      '127.0.0.1.evil.example',
      'tussock.local.evil.example',
      undefined,
      '',
    ])
      expect(isOwnHost(host, names), String(host)).toBe(false)
  })
})

describe('secrets', () => {
  // RFC 7914: scrypt; the hash differs with every salt, so the same passphrase is never seen to be the same
  test('a passphrase is kept as a hash with a salt of its own, and recognised', async () => {
    const [one, other] = [await keepSecret('sedge and rush'), await keepSecret('sedge and rush')]
    expect(one.hash).not.toBe(other.hash)
    expect(JSON.stringify(one)).not.toContain('sedge')
    expect(await isSecret(' sedge and rush ', one)).toBe(true)
    expect(await isSecret('Sedge and rush', one)).toBe(false)
  })

  test('wrong tries are limited by address and in all, also when they come at once', async () => {
    let now = 0
    const door = new Door({ teacher: await keepSecret('sedge and rush'), classCode: null }, () => now)
    const tryAs = (address: string, secret: string) =>
      door.enter(address, 'teacher', secret).then(
        () => 'in',
        (error) => (error as HubError).code,
      )
    const wrong = await Promise.all(
      Array.from({ length: 8 }, (_, index) => tryAs('192.0.2.9', `guess ${index}`)),
    )
    expect(wrong.filter((code) => code === 'E_WRONG_SECRET')).toHaveLength(5)
    expect(wrong.filter((code) => code === 'E_WAIT')).toHaveLength(3)
    expect(await tryAs('192.0.2.9', 'sedge and rush')).toBe('E_WAIT')
    expect(await tryAs('192.0.2.10', 'sedge and rush')).toBe('in')
    now += 600_001
    expect(await tryAs('192.0.2.9', 'sedge and rush')).toBe('in')
  })

  test('knowing the class code wins no tries at the passphrase', async () => {
    const secrets = {
      teacher: await keepSecret('sedge and rush'),
      classCode: await keepSecret('moss7'),
    }
    const door = new Door(secrets, () => 0)
    for (let guess = 0; guess < 5; guess++) {
      await expect(door.enter('192.0.2.9', 'teacher', `guess ${guess}`)).rejects.toMatchObject({
        code: 'E_WRONG_SECRET',
      })
      await door.enter('192.0.2.9', 'class', 'moss7')
    }
    await expect(door.enter('192.0.2.9', 'teacher', 'sedge and rush')).rejects.toMatchObject({
      code: 'E_WAIT',
    })
  })

  test('many addresses together are limited as well', () => {
    const attempts = new Attempts(() => 0)
    for (let address = 0; address < 40; address++) attempts.count(`192.0.2.${address}`)
    expect(attempts.waitMs('198.51.100.1')).toBeGreaterThan(0)
  })

  test('a session ends after a school day, and when it is left', async () => {
    let now = 0
    const door = new Door({ teacher: await keepSecret('sedge and rush'), classCode: null }, () => now)
    const cookie = await door.enter('192.0.2.9', 'teacher', 'sedge and rush')
    expect(door.roleOf('192.0.2.9', cookie)).toBe('teacher')
    expect(door.roleOf('192.0.2.9', `${cookie}x`)).toBe('class')
    now += 12 * 3_600_000
    expect(door.roleOf('192.0.2.9', cookie)).toBe('class')
    const again = await door.enter('192.0.2.9', 'teacher', 'sedge and rush')
    door.leave(again)
    expect(door.roleOf('192.0.2.9', again)).toBe('class')
  })
})

/** Sets a secret as a script does, on standard input. */
function setSecret(folder: string, secret: string, ...more: string[]): Promise<number | null> {
  const child = spawnTussock(['passphrase', '--data', folder, ...more], {}, null, 'pipe')
  child.stdin!.end(`${secret}\n`)
  return new Promise((resolve) => child.once('close', resolve))
}

interface Answer {
  status: number
  cookie: string | undefined
  body: { error?: { code: string }; role?: string }
}

/** Asks over a network address of this machine, so that the hub does not take it for its own keyboard. */
function ask(
  url: URL,
  method: string,
  body?: unknown,
  headers: Record<string, string> = {},
): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const text = body === undefined ? undefined : JSON.stringify(body)
    const sent = request(
      url,
      { method, headers: { ...(text ? { 'content-type': 'application/json' } : {}), ...headers } },
      (response) => {
        let said = ''
        response.on('data', (chunk) => {
          said += chunk
        })
        response.on('end', () => {
          const cookie = response.headers['set-cookie']?.[0]
          const isJson = response.headers['content-type']?.includes('json')
          resolve({ status: response.statusCode!, cookie, body: isJson ? JSON.parse(said) : {} })
        })
      },
    )
    sent.on('error', reject)
    sent.end(text)
  })
}

const networkAddress = Object.values(networkInterfaces())
  .flatMap((list) => list ?? [])
  .find(({ family, internal }) => family === 'IPv4' && !internal)?.address

describe('a hub that phones can reach', () => {
  test('does not open to a network without a passphrase', async () => {
    const folder = temporaryFolder()
    const refused = await runTussock(
      'start',
      '--host',
      '0.0.0.0',
      '--port',
      '0',
      '--mqtt-port',
      '0',
      '--data',
      folder,
    )
    expect(refused.stderr).toContain('E_PASSPHRASE')
    expect(await setSecret(folder, 'short')).toBe(2)
    expect(await setSecret(folder, 'sedge and rush')).toBe(0)
    expect(statSync(join(folder, 'access.json')).mode & 0o777).toBe(0o600)
  })

  test.runIf(networkAddress)(
    'lets the class look and capture, and only the teacher change; not under another name, not from another page',
    async () => {
      const folder = temporaryFolder()
      await setSecret(folder, 'sedge and rush')
      const hub = await startHub({ dataFolder: folder, args: ['--host', '0.0.0.0'] })
      const { port } = new URL(hub.address)
      const own = `http://127.0.0.1:${port}`
      const net = (path: string) => new URL(path, `http://${networkAddress}:${port}`)
      const saved = await ask(new URL('/api/surveys/example', own), 'PUT', exampleSurvey())
      expect(saved.status).toBe(200)
      expect((await ask(net('/api/you'), 'GET')).body).toEqual({
        role: 'class',
        isOnNetwork: true,
        needsClassCode: false,
      })
      expect((await ask(net('/api/hub'), 'GET')).status).toBe(200)
      const place = { probe: 'PH-1', quadrat: 'Q2', from: '2026-06-12T10:00:00Z' }
      expect((await ask(net('/api/surveys/example/placements'), 'POST', place)).body.error?.code).toBe(
        'E_TEACHER',
      )
      // a spot reading of the class is read, and refused only for what it says
      const spot = {
        id: 'capture-1',
        quadrat: 'Q9',
        probe: 'PH-1',
        sentAt: '2026-06-12T10:00:00Z',
        held: [{ from: '2026-06-12T09:00:00Z', to: '2026-06-12T09:00:10Z', isSteady: true }],
      }
      expect((await ask(net('/api/surveys/example/spots'), 'POST', spot)).body.error?.code).toBe(
        'E_NOT_FOUND',
      )
      const wrong = await ask(net('/api/enter'), 'POST', { as: 'teacher', secret: 'guess' })
      expect(wrong.body.error?.code).toBe('E_WRONG_SECRET')
      const entered = await ask(net('/api/enter'), 'POST', { as: 'teacher', secret: 'sedge and rush' })
      expect(entered.cookie).toMatch(
        /^tussock_session=[^;]+; Max-Age=43200; Path=\/; HttpOnly; SameSite=Strict$/,
      )
      const cookie = { cookie: entered.cookie!.split(';')[0]! }
      expect((await ask(net('/api/surveys/example/placements'), 'POST', place, cookie)).status).toBe(200)
      const elsewhere = await ask(
        net('/api/surveys/example/undo'),
        'POST',
        {},
        { ...cookie, origin: 'http://evil.example' },
      )
      expect(elsewhere.body.error?.code).toBe('E_ELSEWHERE')
      const rebound = await ask(net('/api/hub'), 'GET', undefined, { host: 'evil.example' })
      expect(rebound.body.error?.code).toBe('E_HOST')
      // nothing is allowed to pages of other origins
      const response = await fetch(net('/api/hub'), { headers: { origin: 'http://evil.example' } })
      expect(response.headers.get('access-control-allow-origin')).toBeNull()
    },
  )

  test.runIf(networkAddress)('may ask for a class code before anything is shown', async () => {
    const folder = temporaryFolder()
    await setSecret(folder, 'sedge and rush')
    await setSecret(folder, 'moss7', '--class-code')
    const hub = await startHub({ dataFolder: folder, args: ['--host', '0.0.0.0'] })
    const { port } = new URL(hub.address)
    const net = (path: string) => new URL(path, `http://${networkAddress}:${port}`)
    expect((await ask(net('/api/hub'), 'GET')).body.error?.code).toBe('E_CODE')
    expect((await ask(net('/api/stream'), 'GET')).body.error?.code).toBe('E_CODE')
    expect((await ask(net('/'), 'GET')).status).toBe(200)
    const entered = await ask(net('/api/enter'), 'POST', { as: 'class', secret: 'moss7' })
    const cookie = { cookie: entered.cookie!.split(';')[0]! }
    expect((await ask(net('/api/hub'), 'GET', undefined, cookie)).status).toBe(200)
    expect((await ask(net('/api/surveys/x'), 'PUT', {}, cookie)).body.error?.code).toBe('E_TEACHER')
  })
})

describe('what guards a hub is never left open by a fault', () => {
  test('an access file that cannot be read keeps the hub from starting', async () => {
    const folder = temporaryFolder()
    writeFileSync(join(folder, 'access.json'), '{"teacher":')
    const refused = await runTussock('start', '--port', '0', '--mqtt-port', '0', '--data', folder)
    expect(refused.stderr).toContain('E_ACCESS_FILE')
  })

  test('a certificate without its key, or with another, is refused', async () => {
    const folder = temporaryFolder()
    const start = (...more: string[]) =>
      runTussock('start', '--port', '0', '--mqtt-port', '0', '--data', folder, ...more)
    expect((await start('--https-cert', join(folder, 'none.pem'))).stderr).toContain('E_CERTIFICATE')
    const none = ['--https-cert', join(folder, 'none.pem'), '--https-key', join(folder, 'none.key')]
    expect((await start(...none)).stderr).toContain('E_CERTIFICATE')
  })
})
