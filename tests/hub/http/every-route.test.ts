import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest'
import { Door } from '../../../hub/access/door.ts'
import { keepSecret } from '../../../hub/access/passphrase.ts'
import { HubError } from '../../../hub/errors.ts'
import { makeApp } from '../../../hub/http/app.ts'
import type { Desk } from '../../../hub/http/desk.ts'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'
import { FieldSide } from '../../support/field-side.ts'

/** Who may do what, route by route: a new one has to be thought about here. */
const MAY: Record<'anyone' | 'class' | 'teacher', string[]> = {
  anyone: ['GET /api/you', 'POST /api/enter', 'POST /api/leave'],
  class: [
    // looking
    'GET /api/hub',
    'GET /api/health',
    'GET /api/addresses',
    'GET /api/directory',
    'GET /api/quarantine',
    'GET /api/ports',
    'GET /api/quality',
    'GET /api/traps',
    'GET /api/readings/{reading}',
    'GET /api/surveys/{survey}',
    'GET /api/surveys/{survey}/readiness',
    'GET /api/surveys/{survey}/clean',
    'GET /api/surveys/{survey}/quadrats/{quadrat}/series',
    'GET /api/surveys/{survey}/spots',
    'GET /api/surveys/{survey}/pairing',
    'GET /api/surveys/{survey}/summary',
    'GET /api/surveys/{survey}/sheets',
    'GET /api/surveys/{survey}/join',
    'GET /api/surveys/{survey}/statistics',
    'GET /api/surveys/{survey}/catches',
    'GET /api/surveys/{survey}/completeness',
    'GET /api/surveys/{survey}/leave',
    'GET /api/surveys/{survey}/departure',
    'GET /api/surveys/{survey}/traps',
    // downloading
    'GET /api/exports',
    'GET /api/export/readings.csv',
    'GET /api/surveys/{survey}/export/{name}',
    'GET /api/surveys/{survey}/pictures/{picture}',
    'GET /api/surveys/{survey}/report.html',
    'GET /api/surveys/{survey}/report.pdf',
    // asked while a page is drawn: changes nothing
    'POST /api/plan/draw',
    'POST /api/plan/enough',
    'POST /api/surveys/{survey}/plan/preview',
    'POST /api/surveys/{survey}/calibrations/preview',
    // capturing, and seeing to animals
    'POST /api/surveys/{survey}/spots',
    'POST /api/surveys/{survey}/spots/{spot}/amend',
    'POST /api/surveys/{survey}/traps/{trap}/check',
  ],
  teacher: [
    'POST /api/backup',
    'POST /api/ports',
    'DELETE /api/ports',
    'POST /api/boards/{board}/ask',
    'POST /api/boards/{board}/key',
    'DELETE /api/boards/{board}/key',
    'POST /api/rehearsal',
    'DELETE /api/rehearsal',
    'POST /api/rehearsal/put',
    'PUT /api/surveys/{survey}',
    'POST /api/surveys/{survey}/placements',
    'POST /api/surveys/{survey}/placements/amend',
    'POST /api/surveys/{survey}/clock-corrections',
    'DELETE /api/surveys/{survey}/clock-corrections/{correction}',
    'POST /api/surveys/{survey}/probes/{probe}/role',
    'POST /api/surveys/{survey}/probes/{probe}/withdraw',
    'POST /api/surveys/{survey}/undo',
    'POST /api/surveys/{survey}/calibrations',
    'POST /api/surveys/{survey}/calibrations/{calibration}/withdraw',
    'POST /api/surveys/{survey}/checks',
    'POST /api/surveys/{survey}/drift',
    'POST /api/surveys/{survey}/plan',
    'POST /api/surveys/{survey}/decisions',
    'POST /api/surveys/{survey}/decisions/{decision}/take-back',
    'PUT /api/surveys/{survey}/quality',
    'POST /api/surveys/{survey}/sheets',
    'PUT /api/surveys/{survey}/sheets/{sheet}/answers',
    'POST /api/surveys/{survey}/sheets/{sheet}/removal',
    'POST /api/surveys/{survey}/traps',
    'POST /api/surveys/{survey}/traps/{trap}/undo',
  ],
}
const REFUSED = ['E_TEACHER', 'E_CODE', 'E_ELSEWHERE', 'E_HOST', 'E_WAIT']

const asked: string[] = []
/** The other thread, which notes what it is asked and does nothing. */
const desk = new Proxy({} as Desk, {
  get: (_target, name) => async () => {
    asked.push(String(name))
    throw new HubError('E_ASK', 'Noted.')
  },
})

let door: Door
let cookies: Record<'stranger' | 'class' | 'teacher', string>
let field: FieldSide
let app: ReturnType<typeof makeApp>
let device = 0

beforeAll(async () => {
  const [teacher, classCode] = await Promise.all([keepSecret('sedge and rush'), keepSecret('moss7')])
  door = new Door({ teacher, classCode })
  const enter = async (as: 'teacher' | 'class', secret: string) =>
    `tussock_session=${await door.enter('192.0.2.1', as, secret)}`
  cookies = {
    stranger: 'tussock_session=invented',
    class: await enter('class', 'moss7'),
    teacher: await enter('teacher', 'sedge and rush'),
  }
})
beforeEach(() => {
  asked.length = 0
  field = new FieldSide(exampleSurvey(), nineOClock)
  const page = join(field.side.pageFolder, 'page')
  mkdirSync(join(page, 'assets'), { recursive: true })
  writeFileSync(join(page, 'index.html'), '<title>Tussock</title>')
  writeFileSync(join(page, 'assets', 'own.js'), 'own')
  writeFileSync(join(field.side.pageFolder, 'access.json'), '{"secret":1}')
  app = makeApp({ ...field.side, desk, door, pageFolder: page })
})
afterEach(() => field.close())

/** Asks from the network, each time from another device so that no limit of rate stands before the answer. */
async function ask(
  method: string,
  path: string,
  headers: Record<string, string> = {},
): Promise<{ status: number; code: string | undefined; headers: Headers; text: string }> {
  const address = `192.0.2.${(device++ % 250) + 2}`
  const isBody = method === 'POST' || method === 'PUT'
  const response = await app.request(
    `http://localhost:4780${path.replaceAll(/\{survey\}/g, 'example').replaceAll(/\{\w+\}/g, 'x-1')}`,
    {
      method,
      headers: {
        host: 'localhost:4780',
        ...(isBody ? { 'content-type': 'application/json' } : {}),
        ...headers,
      },
      ...(isBody ? { body: '{}' } : {}),
    },
    { incoming: { socket: { remoteAddress: address } } },
  )
  const text = await response.text()
  const isJson = text !== '' && response.headers.get('content-type')?.includes('json')
  const code = isJson ? (JSON.parse(text) as { error?: { code?: string } }).error?.code : undefined
  return { status: response.status, code, headers: response.headers, text }
}

async function routesThereAre(): Promise<string[]> {
  const { text } = await ask('GET', '/api/openapi.json', { cookie: cookies.class })
  const { paths } = JSON.parse(text) as { paths: Record<string, Record<string, unknown>> }
  return Object.entries(paths).flatMap(([path, methods]) =>
    Object.keys(methods).map((method) => `${method.toUpperCase()} ${path}`),
  )
}

const split = (route: string) => route.split(' ') as [string, string]

describe('every route of the OpenAPI text', () => {
  test('is in the table of who may do what', async () => {
    expect([...MAY.anyone, ...MAY.class, ...MAY.teacher].sort()).toEqual((await routesThereAre()).sort())
  })

  test('a stranger sees none of it before the class code, and changes nothing', async () => {
    const closed = [
      ...[...MAY.class, 'GET /api/stream', 'GET /api/openapi.json'].map((route) => [route, 401, 'E_CODE']),
      ...MAY.teacher.map((route) => [route, 403, 'E_TEACHER']),
    ] as [string, number, string][]
    for (const [route, status, code] of closed)
      expect(await ask(...split(route), { cookie: cookies.stranger }), route).toMatchObject({ status, code })
    expect(asked).toEqual([])
  })

  test('the class looks, captures and downloads, and does nothing else', async () => {
    for (const route of MAY.class)
      expect(REFUSED, route).not.toContain((await ask(...split(route), { cookie: cookies.class })).code)
    asked.length = 0
    for (const route of MAY.teacher)
      expect(await ask(...split(route), { cookie: cookies.class }), route).toMatchObject({
        status: 403,
        code: 'E_TEACHER',
      })
    expect(asked).toEqual([])
  })

  test('the teacher may do all of it', async () => {
    for (const route of [...MAY.class, ...MAY.teacher])
      expect(REFUSED, route).not.toContain((await ask(...split(route), { cookie: cookies.teacher })).code)
  })

  test('no page elsewhere changes anything, also with the teacher’s cookie', async () => {
    const elsewhere = [
      'http://evil.example',
      'null',
      'http://localhost:4781',
      'http://localhost.evil.example:4780',
    ]
    for (const route of [...MAY.anyone, ...MAY.class, ...MAY.teacher]) {
      const [method, path] = split(route)
      if (method === 'GET') continue
      for (const origin of elsewhere)
        expect(
          (await ask(method, path, { cookie: cookies.teacher, origin })).code,
          `${route} ${origin}`,
        ).toBe('E_ELSEWHERE')
    }
    expect(asked).toEqual([])
  })

  test('no page elsewhere is let see anything, nor asks under another name', async () => {
    const origin = 'http://evil.example'
    for (const route of [...MAY.anyone, ...MAY.class, ...MAY.teacher]) {
      const [method, path] = split(route)
      const preflight = await ask('OPTIONS', path, { origin, 'access-control-request-method': method })
      expect(preflight.status, route).toBeGreaterThanOrEqual(400)
      const answers = [preflight]
      // browsers keep from another page what no header lets it see
      if (method === 'GET') answers.push(await ask('HEAD', path, { cookie: cookies.teacher, origin }))
      for (const { headers } of answers)
        expect(
          [...headers.keys()].filter((name) => name.startsWith('access-control')),
          route,
        ).toEqual([])
      const rebound = await ask(method, path, { cookie: cookies.teacher, host: 'evil.example' })
      expect(rebound.code, route).toBe('E_HOST')
    }
    expect(asked).toEqual([])
  })

  test('no answer runs a script or is taken for something else', async () => {
    for (const route of [...MAY.anyone, ...MAY.class, 'GET /', 'GET /assets/own.js', 'GET /api/none']) {
      // leaving is answered too, without ending the session the others are asked in
      const cookie = MAY.anyone.includes(route) ? cookies.stranger : cookies.class
      const { headers } = await ask(...split(route), { cookie })
      const policy = headers.get('content-security-policy')
      expect(policy, route).toContain("default-src 'self'")
      expect(policy, route).not.toMatch(/script-src|unsafe-eval|default-src[^;]*unsafe/)
      expect(headers.get('x-content-type-options'), route).toBe('nosniff')
      expect(headers.get('cross-origin-resource-policy'), route).toBe('same-origin')
      expect(headers.get('content-disposition') ?? 'inline; filename="-"', route).toMatch(
        /^(attachment|inline); filename="[A-Za-z0-9_-][A-Za-z0-9._-]*"$/,
      )
    }
  })
})

describe('paths', () => {
  const waysOut = [
    '/../access.json',
    '/%2e%2e/access.json',
    '/..%2faccess.json',
    '/%2e%2e%2faccess.json',
    '/..\\access.json',
    '/..%5caccess.json',
    '/assets/..%2f..%2faccess.json',
    '/assets/%252e%252e%252f%252e%252e%252faccess.json',
    '/access.json%00.js',
    '/%00',
    '//access.json',
    '/assets/....//....//access.json',
    '/./%2e./access.json',
  ]

  test('none leads to anything outside the page’s own folder', async () => {
    expect((await ask('GET', '/assets/own.js')).text).toBe('own')
    for (const path of waysOut) {
      const { status, text } = await ask('GET', path)
      expect(text, path).not.toContain('secret')
      expect(status, path).toBeLessThan(500)
    }
  })

  test('none is a way around the class code', async () => {
    const ways = [
      '/%61pi/hub',
      '/./api/hub',
      '/x/../api/hub',
      '/api/%68ub',
      '/API/hub',
      '//api/hub',
      '/api//hub',
      '/api%2fhub',
    ]
    for (const path of ways)
      expect((await ask('GET', path, { cookie: cookies.stranger })).text, path).not.toContain('tallies')
  })

  test('a survey by a name that no survey can have is not there, and is no failure', async () => {
    const names = [
      '..',
      '..%2f..%2fexample',
      'example%00',
      '__proto__',
      'constructor',
      'a%5cb',
      '%E0%A4%A',
      'x'.repeat(5000),
    ]
    for (const survey of names)
      for (const path of ['', '/summary', '/export/workbook', '/report.pdf', '/pictures/kite.svg']) {
        const { status } = await ask('GET', `/api/surveys/${survey}${path}`, { cookie: cookies.class })
        expect([200, 400, 404], `${survey.slice(0, 40)}${path}`).toContain(status)
      }
  })

  test('a download is named by plain letters, whatever the survey and the quadrat are called', async () => {
    const label = '../a"b\r\nc: d;'
    const path = `/api/export/readings.csv?survey=example&quadrat=${encodeURIComponent(label)}`
    const { headers } = await ask('GET', path, { cookie: cookies.class })
    expect(headers.get('content-disposition')).toBe(
      'attachment; filename="readings-example-..-a-b-c-d--clean.csv"',
    )
  })
})

test('the cookie of who enters is kept from scripts and from other pages, and from plain HTTP where there is HTTPS', async () => {
  const enter = async (isSecure: boolean) => {
    const secured = makeApp({ ...field.side, door, access: { ...field.side.access, isSecure } })
    const { headers } = await secured.request('/api/enter', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ as: 'class', secret: 'moss7' }),
    })
    return headers.get('set-cookie')
  }
  expect(await enter(false)).toMatch(
    /^tussock_session=[\w-]{43}; Max-Age=43200; Path=\/; HttpOnly; SameSite=Strict$/,
  )
  expect(await enter(true)).toMatch(/; HttpOnly; Secure; SameSite=Strict$/)
})

test('one device may make so many changes at a time, and no device keeps another waiting', async () => {
  const change = async (remoteAddress: string) => {
    const init = { method: 'POST', headers: { host: 'localhost' } }
    const from = { incoming: { socket: { remoteAddress } } }
    return (await app.request('http://localhost/api/surveys/example/undo', init, from)).status
  }
  const statuses = await Promise.all(Array.from({ length: 250 }, () => change('198.51.100.7')))
  expect(statuses.filter((status) => status === 429)).toHaveLength(50)
  expect(await change('198.51.100.8')).toBe(403)
  expect(await change('127.0.0.1')).toBe(409)
})

describe('bodies', () => {
  test('a long one is refused, also when it does not say how long it is', async () => {
    const pieces = vi.fn()
    const body = new ReadableStream<Uint8Array>({
      pull(controller) {
        pieces()
        controller.enqueue(new Uint8Array(1_000_000))
      },
    })
    const init = { method: 'PUT', body, duplex: 'half', headers: { 'content-type': 'application/json' } }
    const response = await app.request('/api/surveys/example', init as RequestInit)
    expect(await response.json()).toMatchObject({ error: { code: 'E_BODY' } })
    expect(pieces.mock.calls.length).toBeLessThan(20)
  })

  test('of who may not send one, none is read', async () => {
    const body = new ReadableStream<Uint8Array>({
      pull() {
        throw new Error('was read')
      },
    })
    const init = { method: 'PUT', body, duplex: 'half', headers: { host: 'localhost' } }
    const from = { incoming: { socket: { remoteAddress: '192.0.2.9' } } }
    const response = await app.request('http://localhost/api/surveys/example', init as RequestInit, from)
    expect(response.status).toBe(403)
  })
})
