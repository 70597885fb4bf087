import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { Door } from '../../../hub/access/door.ts'
import { makeApp } from '../../../hub/http/app.ts'
import type { Desk } from '../../../hub/http/desk.ts'
import { LiveStream } from '../../../hub/http/live-stream.ts'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'
import { quietState } from '../../support/quiet-state.ts'
import { SmallHub } from '../../support/small-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'

function makeSide() {
  const folder = temporaryFolder()
  const hub = new SmallHub(folder)
  const pageFolder = join(folder, 'page')
  mkdirSync(pageFolder)
  writeFileSync(join(pageFolder, 'index.html'), '<title>Tussock</title>')
  const nowMs = () => nineOClock
  const stream = new LiveStream(
    nowMs,
    () => hub.reader.lastMessageId(),
    (after, most) => hub.reader.readingsAfter(after, most),
  )
  // only what these routes ask of the other thread
  const desk = {
    saveSurvey: async (survey: unknown, why: string) => {
      hub.keeper.save(survey, why)
    },
    undo: async (id: string) => hub.keeper.undo(id),
  } as unknown as Desk
  const facts = { version: '0', isRehearsal: false, speed: 1 }
  const app = makeApp({
    reader: hub.reader,
    desk,
    stream,
    timelines: () => hub.keeper.timelines,
    state: () => quietState,
    nowMs,
    addresses: () => [],
    door: new Door({ teacher: null, classCode: null }),
    access: { isOnNetwork: false, isSecure: false, hostNames: () => [] },
    facts,
    pageFolder,
  })
  const close = () => {
    stream.close()
    hub.close()
  }
  return { hub, app, close }
}

const put = (body: unknown): RequestInit => ({
  method: 'PUT',
  headers: { 'content-type': 'application/json' },
  body: typeof body === 'string' ? body : JSON.stringify(body),
})

describe('the HTTP API', () => {
  test('a survey goes in and comes out the same', async () => {
    const { app, close } = makeSide()
    expect((await app.request('/api/surveys/example', put(exampleSurvey()))).status).toBe(200)
    expect(await (await app.request('/api/surveys/example')).json()).toEqual(exampleSurvey())
    close()
  })

  test('a wrong survey changes nothing and every fault has its path', async () => {
    const { hub, app, close } = makeSide()
    const draft = exampleSurvey()
    draft.placements[0]!.quadrat = 'Q9'
    const response = await app.request('/api/surveys/example', put(draft))
    expect(response.status).toBe(422)
    expect(await response.json()).toMatchObject({
      error: { code: 'E_SURVEY_FILE', faults: [{ path: 'placements[0].quadrat' }] },
    })
    expect(hub.keeper.timelines.surveys).toEqual([])
    close()
  })

  test('a survey under another address than its id is refused', async () => {
    const { app, close } = makeSide()
    expect((await app.request('/api/surveys/other', put(exampleSurvey()))).status).toBe(422)
    close()
  })

  test('the directory tells for each channel probe, quadrat, calibration, verdict and newest reading', async () => {
    const { hub, app, close } = makeSide()
    hub.keeper.save(exampleSurvey(), 'test')
    hub.send(nineOClock - 1000, [
      { n: 'sedge-1/temperature', u: 'Cel', v: 12.5 },
      { n: 'new-9/c1', v: 1 },
    ])
    const directory = await (await app.request('/api/directory')).json()
    expect(directory.channels).toMatchObject([
      {
        board: 'new-9',
        channel: 'c1',
        probe: null,
        latest: [2048, 2, nineOClock - 1000, 1, null, null, 2],
      },
      { board: 'sedge-1', quadrat: 'Q1', quantity: 'soil_temperature', verdict: 'pass', valueUnit: 'Cel' },
    ])
    expect(directory.boards).toMatchObject([
      { name: 'new-9', isWaiting: true },
      { name: 'sedge-1', isWaiting: false },
    ])
    close()
  })

  test('one reading is explained from its value back to the bytes', async () => {
    const { hub, app, close } = makeSide()
    hub.keeper.save(exampleSurvey(), 'test')
    hub.send(nineOClock, [{ bn: 'sedge-1/', n: 'temperature', u: 'Cel', v: 12.5 }])
    const explained = await (await app.request('/api/readings/1024')).json()
    expect(explained).toMatchObject({
      value: 12,
      unit: 'Cel',
      signal: 12.5,
      quadrat: 'Q1',
      probe: 'TEMP-1',
      calibration: 'temp-cal-1',
      calibrationRecipe: { kind: 'digital-temperature', offsetCelsius: -0.5 },
      message: { bytes: '[{"bn":"sedge-1/","n":"temperature","u":"Cel","v":12.5}]' },
    })
    expect((await app.request('/api/readings/999999')).status).toBe(404)
    close()
  })

  test('a quadrat’s series have one entry a probe, in time order, with flags', async () => {
    const { hub, app, close } = makeSide()
    hub.keeper.save(exampleSurvey(), 'test')
    for (let second = 0; second < 30; second++)
      hub.send(nineOClock - 60_000 + second * 1000, [
        { n: 'sedge-1/temperature', u: 'Cel', v: second === 7 ? 50 : 12 },
      ])
    const path = '/api/surveys/example/quadrats/Q1/series'
    const { series } = await (await app.request(path)).json()
    expect(series).toHaveLength(1)
    expect(series[0]).toMatchObject({ quantity: 'soil_temperature', unit: 'Cel', expectedIntervalSeconds: 2 })
    expect(series[0].mean).toHaveLength(30)
    expect(series[0].flag[7]).toBe(3)
    // fewer steps than readings: each step has its lowest, mean and highest, and the worst flag
    const coarse = (
      await (await app.request(`${path}?steps=10&from=2026-06-12T08:59:00Z&to=2026-06-12T08:59:30Z`)).json()
    ).series[0]
    expect(coarse.count).toEqual(Array(10).fill(3))
    expect([coarse.low[2], coarse.high[2], coarse.flag[2]]).toEqual([11.5, 49.5, 3])
    expect((await app.request('/api/surveys/example/quadrats/Q7/series')).status).toBe(404)
    close()
  })

  test('a time without its zone is refused, with the parameter named', async () => {
    const { app, close } = makeSide()
    const response = await app.request('/api/export/readings.csv?from=2026-06-12T09:00:00')
    expect(response.status).toBe(400)
    expect(await response.json()).toMatchObject({
      error: { code: 'E_QUERY', message: expect.stringContaining('from: a time with its zone') },
    })
    close()
  })

  test('the download is the same bytes as the export, with a name that a file system takes', async () => {
    const { hub, app, close } = makeSide()
    hub.keeper.save(exampleSurvey(), 'test')
    hub.send(nineOClock, [{ n: 'sedge-1/temperature', u: 'Cel', v: 12.5 }])
    const response = await app.request('/api/export/readings.csv?survey=example&quadrat=Q1')
    expect(response.headers.get('content-disposition')).toBe(
      'attachment; filename="readings-example-Q1-clean.csv"',
    )
    expect((await response.text()).split('\r\n')[1]).toContain(
      '2026-06-12T09:00:00.000Z,example,T1,2,Q1,soil_temperature,12,Cel',
    )
    expect((await app.request('/api/export/readings.csv?survey=nope')).status).toBe(404)
    close()
  })

  test('broken JSON, an unknown path and another page’s change are each refused with a code and what to do', async () => {
    const { app, close } = makeSide()
    expect(await (await app.request('/api/surveys/example', put('{'))).json()).toMatchObject({
      error: { code: 'E_BODY' },
    })
    expect(await (await app.request('/api/nothing')).json()).toMatchObject({ error: { code: 'E_NOT_FOUND' } })
    const foreign = put(exampleSurvey())
    foreign.headers = { ...foreign.headers, origin: 'http://elsewhere.example', host: '127.0.0.1:4780' }
    const response = await app.request('/api/surveys/example', foreign)
    expect(response.status).toBe(403)
    expect(await response.json()).toMatchObject({ error: { code: 'E_ELSEWHERE' } })
    close()
  })

  test('the OpenAPI text describes every route of the page', async () => {
    const { app, close } = makeSide()
    const text = await (await app.request('/api/openapi.json')).json()
    expect(text.openapi).toBe('3.1.0')
    expect(Object.keys(text.paths)).toEqual(
      expect.arrayContaining([
        '/api/hub',
        '/api/directory',
        '/api/surveys/{survey}',
        '/api/export/readings.csv',
      ]),
    )
    close()
  })

  test('any other address is the page itself, and no address leaves its folder', async () => {
    const { app, close } = makeSide()
    expect(await (await app.request('/survey/example')).text()).toContain('<title>Tussock')
    for (const path of ['/../package.json', '/..%2f..%2fpackage.json', '/assets/../../readings.sqlite'])
      expect(await (await app.request(path)).text()).not.toContain('"dependencies"')
    expect((await app.request('/assets/nope.js')).status).toBe(404)
    close()
  })
})
