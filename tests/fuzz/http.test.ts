import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { fillStudy, studySurvey } from '../hub/export/study-hub.ts'
import { nineOClock } from '../support/example-survey.ts'
import { type HubProcess, startHub } from '../support/running-hub.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'
import { fromSchema, nastyWords, pick, type Schema, type Words } from './from-schema.ts'
import { mutate, seeded } from './mutations.ts'

/** Inputs in all; `TUSSOCK_FUZZ=1000000` for the long run. */
const INPUTS = Number(process.env['TUSSOCK_FUZZ'] ?? 2500)
/** Reports and statistics are worked out, not only read; nothing may take longer. */
const HANGS_MS = 10_000
/** So much may the hub grow while it is asked all this. */
const GROWS_BYTES = 400_000_000
/** A rehearsal leaves the survey that is asked about; what its routes read is asked with wrong bodies alone. */
const ALWAYS_WRONG = ['POST /api/rehearsal', 'POST /api/rehearsal/put']
const NEVER = ['DELETE /api/rehearsal']
/** Work of a tenth of a second and more: asked less often. */
const HEAVY = /report\.|\/export\/|statistics|pictures|departure|preview|enough/

/** These say at times that something is not there: a backup's folder, a list of ports, a hub that is well. */
const NOT_THERE = /^\/api\/(backup|ports|health)\b/

const words: Words = {
  survey: ['example'],
  quadrat: ['Q1', 'Q2', 'Q9'],
  probe: ['PH-1', 'TEMP-1', 'TEMP-2', 'WIND-1'],
  board: ['sedge-1', 'sedge-2', 'rush-9'],
  calibration: ['ph-cal-1', 'temp-cal-1'],
  decision: ['d1'],
  spot: ['spot-0000', 'spot-0001'],
  trap: ['P1'],
  sheet: ['1', '2'],
  picture: ['kite.svg', 'profile.svg', 'scatter.svg', 'nothing.svg'],
  reading: ['1024', '2048', '1'],
  at: ['Q1', '2026-06-12T09:00:10Z'],
  by: ['G3'],
  path: ['/dev/tussock-none', 'COM99'],
  from: ['2026-06-12T09:00:00Z', '0001-01-01T00:00:00Z'],
  to: ['2026-06-12T09:01:00Z', '9999-12-31T23:59:59Z'],
  transect: ['T1'],
  species: ['Bramble', 'Carex sp.'],
  taxa: ['Bramble|Carex sp.'],
  factors: ['soil_temperature', 'soil_ph|soil_temperature'],
  name: ['plants.csv'],
}

interface Route {
  method: string
  path: string
  parameters: { name: string; in: 'path' | 'query'; schema: Schema }[]
  body: Schema | null
}

async function routesOf(hub: HubProcess): Promise<Route[]> {
  interface Operation {
    parameters?: Route['parameters']
    requestBody?: { content?: Record<string, { schema: Schema }> }
  }
  const { paths } = await hub.get<{ paths: Record<string, Record<string, Operation>> }>('/api/openapi.json')
  return Object.entries(paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, { parameters = [], requestBody }]) => ({
      method: method.toUpperCase(),
      path,
      parameters,
      body: requestBody?.content?.['application/json']?.schema ?? null,
    })),
  )
}

function requestTo(route: Route, chance: () => number, wrong: number): { path: string; init: RequestInit } {
  const of = (name: string, schema: Schema) => {
    const value = fromSchema(schema, chance, words, wrong, name)
    return typeof value === 'string' ? value : JSON.stringify(value)
  }
  let path = route.path
  const query = new URLSearchParams()
  for (const { name, in: where, schema } of route.parameters)
    if (where === 'path') path = path.replace(`{${name}}`, inPath(of(name, schema)))
    else if (chance() < 0.5) query.append(name, of(name, schema))
  if (chance() < wrong) query.append(pick(nastyWords, chance), pick(nastyWords, chance))
  let asked = `${path}${query.size > 0 ? `?${query}` : ''}`
  if (chance() < wrong) asked = `/api/${mutatedText(asked.slice(5), chance).replace(/[^!-~]/g, '%ff')}`
  const init: RequestInit = { method: route.method, signal: AbortSignal.timeout(2 * HANGS_MS) }
  if (route.method === 'GET' || route.method === 'DELETE') return { path: asked, init }
  const made =
    route.path === '/api/surveys/{survey}'
      ? wrongSurvey(chance)
      : fromSchema(route.body ?? {}, chance, words, wrong)
  const text = JSON.stringify(made ?? null)
  init.headers = { 'content-type': chance() < wrong ? 'text/plain' : 'application/json' }
  init.body = chance() < wrong ? mutatedText(text, chance) : text
  return { path: asked, init }
}

function inPath(word: string): string {
  // a name of dots alone would be another path before it is sent
  return encodeURIComponent(Buffer.from(word).toString()).replace(/^\.+$/, '%2e%2e')
}

function mutatedText(text: string, chance: () => number): string {
  return Buffer.from(mutate(Buffer.from(text), chance)).toString('utf8')
}

/** The survey with one place of it changed. */
function wrongSurvey(chance: () => number): unknown {
  const survey: unknown = structuredClone(studySurvey())
  let at = survey as Record<string, unknown>
  for (;;) {
    const key = pick(Object.keys(at), chance)
    const next = at[key]
    if (typeof next === 'object' && next !== null && Object.keys(next).length > 0 && chance() < 0.8) {
      at = next as Record<string, unknown>
      continue
    }
    at[key] = fromSchema({ type: 'string' }, chance, words, 0.9)
    return survey
  }
}

function residentBytes(pid: number): number {
  return Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))![1]) * 1024
}

test('no request makes the hub fail, hang or grow, and it goes on serving', async () => {
  const dataFolder = temporaryFolder()
  fillStudy(dataFolder)
  const hub = await startHub({ dataFolder })
  const routes = (await routesOf(hub)).filter(({ method, path }) => !NEVER.includes(`${method} ${path}`))
  expect(routes.length).toBeGreaterThan(60)
  const chance = seeded(20_261_128)
  const bytesBefore = residentBytes(hub.pid)
  const statuses = new Map<number, number>()
  const failed: string[] = []
  let slowest = { ms: 0, asked: '' }
  for (let input = 0; input < INPUTS; input++) {
    let route = pick(routes, chance)
    if (HEAVY.test(route.path) && chance() < 0.8) route = pick(routes, chance)
    const isWrong = ALWAYS_WRONG.includes(`${route.method} ${route.path}`)
    const { path, init } = requestTo(route, chance, isWrong ? 1 : pick([0, 0.05, 0.3], chance))
    const asked = `${init.method} ${path.slice(0, 300)} ${String(init.body ?? '').slice(0, 600)}`
    const beganMs = performance.now()
    let status = 0
    try {
      const response = await hub.request(path, init)
      status = response.status
      await response.arrayBuffer()
    } catch (error) {
      failed.push(`${asked}: ${String(error)} ${String((error as Error).cause)}`)
    }
    const ms = performance.now() - beganMs
    if (ms > slowest.ms) slowest = { ms, asked }
    statuses.set(status, (statuses.get(status) ?? 0) + 1)
    if (status >= 500 && !(status === 503 && NOT_THERE.test(path)))
      failed.push(`${asked}: ${hub.stderr.slice(-2000)}`)
    if (failed.length > 5) break
  }
  if (process.env['TUSSOCK_FUZZ'] !== undefined)
    console.log({ statuses, slowest, grownMb: (residentBytes(hub.pid) - bytesBefore) / 1e6 })
  expect(failed).toEqual([])
  expect(hub.stderr).toBe('')
  expect(slowest.ms, slowest.asked).toBeLessThan(HANGS_MS)
  expect(residentBytes(hub.pid) - bytesBefore).toBeLessThan(GROWS_BYTES)
  // changes did get through, and every kind of answer was given
  expect(Math.min(...[200, 400, 404, 422].map((status) => statuses.get(status) ?? 0))).toBeGreaterThan(20)
  expect((await hub.now()).nowMs).toBeGreaterThan(nineOClock)
}, 3_600_000)
