import { randomUUID } from 'node:crypto'
import { expect, test } from 'vitest'
import type { AddSpot, SpotValue } from '../../hub/contract/spot.ts'
import { exampleSurvey } from '../support/example-survey.ts'
import { connectMqtt } from '../support/mqtt-client.ts'
import { type HubProcess, startHub } from '../support/running-hub.ts'

const JSON_TYPE = { 'content-type': 'application/json' }

async function post(hub: HubProcess, path: string, body: unknown) {
  const response = await fetch(`${hub.address}/api/surveys/example${path}`, {
    method: 'POST',
    headers: JSON_TYPE,
    body: JSON.stringify(body),
  })
  return { status: response.status, ...((await response.json()) as Record<string, unknown>) } as {
    status: number
    isNew?: boolean
    spot?: SpotValue
    id?: string
    error?: { code: string; message: string }
  }
}

async function spotsOf(hub: HubProcess): Promise<SpotValue[]> {
  const response = await fetch(`${hub.address}/api/surveys/example/spots`)
  return ((await response.json()) as { spots: SpotValue[] }).spots
}

/** A hub with a carried pH electrode and a meter that is read by eye. */
async function startClass(): Promise<HubProcess> {
  const hub = await startHub()
  const survey = exampleSurvey()
  const file = {
    ...survey,
    probes: [
      ...survey.probes,
      {
        id: 'EYE-1',
        quantity: 'soil_ph',
        method: { way: 'direct' },
        board: 'by-hand',
        channel: 'EYE-1',
        isTyped: true,
        isCarried: true,
      },
    ],
    placements: survey.placements.filter(({ probe }) => probe !== 'PH-1'),
    calibrations: [
      ...survey.calibrations,
      {
        id: 'eye-cal',
        probe: 'EYE-1',
        validFrom: '2026-01-01T00:00:00Z',
        recipe: { kind: 'already-a-value', unit: 'pH', standardUncertainty: 0.1 },
      },
    ],
  }
  const saved = await fetch(`${hub.address}/api/surveys/example`, {
    method: 'PUT',
    headers: JSON_TYPE,
    body: JSON.stringify(file),
  })
  expect(await saved.json()).toEqual({ done: true })
  return hub
}

const typed = (quadrat: string, values: number[], more: Partial<AddSpot> = {}): AddSpot => {
  const now = Date.now()
  return {
    id: randomUUID(),
    quadrat,
    probe: 'EYE-1',
    by: 'G1',
    sentAt: new Date(now).toISOString(),
    typed: values.map((value, index) => ({ value, at: new Date(now - 60_000 + index * 1000).toISOString() })),
    ...more,
  }
}

test('thirty phones send what they captured, some of it twice and at once: each is kept once, and joins the download', async () => {
  const hub = await startClass()
  const captures = Array.from({ length: 30 }, (_, phone) =>
    typed(phone % 2 ? 'Q1' : 'Q2', [5 + phone / 100, 5.1 + phone / 100, 5.2 + phone / 100]),
  )
  const answers = await Promise.all(
    [...captures, ...captures.slice(0, 10), ...captures.slice(0, 10)].map((capture) =>
      post(hub, '/spots', capture),
    ),
  )
  expect(answers.map(({ status }) => status)).toEqual(answers.map(() => 200))
  expect(answers.filter(({ isNew }) => isNew)).toHaveLength(30)
  const kept = await spotsOf(hub)
  expect(kept).toHaveLength(30)
  for (const { n, spot, unit } of kept)
    expect({ n, typed: spot.isTyped, unit }).toEqual({ n: 3, typed: true, unit: 'pH' })
  const csv = await (await fetch(`${hub.address}/api/export/readings.csv?survey=example`)).text()
  const lines = csv.trimEnd().split('\r\n').slice(1)
  expect(lines).toHaveLength(90)
  for (const line of lines)
    expect(line).toMatch(/,example,T1,(2|12),(Q1|Q2),soil_ph,5(\.\d+)?,pH,0\.1,[12],EYE-1,eye-cal,/)
  expect((await hub.directory()).boards.map(({ name }) => name)).not.toContain('by-hand')
  // and after a power cut
  await hub.kill()
  const again = await startHub({ dataFolder: hub.dataFolder })
  expect(await spotsOf(again)).toEqual(kept)
  expect((await post(again, '/spots', captures[4])).isNew).toBe(false)
})

test('two different captures under one id, and a board that calls itself by the name of typed values, are refused', async () => {
  const hub = await startClass()
  const capture = typed('Q1', [5.5])
  expect((await post(hub, '/spots', capture)).isNew).toBe(true)
  expect((await post(hub, '/spots', { ...capture, quadrat: 'Q2' })).error?.code).toBe('E_SPOT_ID')
  const client = await connectMqtt(hub.mqttUrl)
  await client.publishAsync('tussock/by-hand/pack', '[{"n":"EYE-1","u":"pH","v":9}]', { qos: 1 })
  const [refused] = await hub.until(
    () => hub.quarantined(),
    (list) => list.length > 0,
  )
  expect(refused!.code).toBe('E_BOARD_NAME')
  await client.endAsync()
})

test('a second probe of the same quantity at a quadrat is asked about, and placed when the person is sure', async () => {
  const hub = await startClass()
  const place = (more: object) =>
    post(hub, '/placements', { probe: 'PH-1', quadrat: 'Q1', from: '2026-06-12T09:00:00Z', ...more })
  expect((await place({})).status).toBe(200)
  const second = {
    id: 'PH-2',
    quantity: 'soil_ph',
    method: { way: 'direct', depthCentimetres: 5 },
    board: 'sedge-2',
    channel: 'ph',
  }
  const asked = await place({ probe: second, from: '2026-06-12T10:00:00Z' })
  expect(asked.error).toMatchObject({ code: 'E_ASK' })
  expect(asked.error!.message).toContain('PH-1 measures soil_ph the same way at Q1')
  expect((await place({ probe: second, from: '2026-06-12T10:00:00Z', isSure: true })).status).toBe(200)
  // a different depth is another quantity, and is not asked about
  const deep = { ...second, id: 'PH-3', channel: 'deep', method: { way: 'direct', depthCentimetres: 20 } }
  expect((await place({ probe: deep })).status).toBe(200)
})

test('nobody pressed “next”: a placement is split at a time, reassigned, and taken back', async () => {
  const hub = await startClass()
  const survey = async () =>
    (await (await fetch(`${hub.address}/api/surveys/example`)).json()) as ReturnType<typeof exampleSurvey>
  const placed = async () => (await survey()).placements.filter(({ probe }) => probe === 'TEMP-1')
  const eight = '2026-06-12T08:00:00Z'
  const nine = '2026-06-12T09:00:00Z'
  await post(hub, '/placements', { probe: 'TEMP-1', quadrat: 'Q2', from: nine })
  expect(await placed()).toEqual([
    { probe: 'TEMP-1', quadrat: 'Q1', from: eight, to: nine },
    { probe: 'TEMP-1', quadrat: 'Q2', from: nine },
  ])
  const amend = (more: object) =>
    post(hub, '/placements/amend', { probe: 'TEMP-1', reason: 'nobody pressed next', ...more })
  await amend({ begins: nine, set: { quadrat: null } })
  expect((await placed())[1]).toEqual({ probe: 'TEMP-1', quadrat: null, from: nine })
  await post(hub, '/undo', {})
  expect((await placed())[1]!.quadrat).toBe('Q2')
  expect((await amend({ begins: '2026-06-12T09:30:00Z', remove: true })).error?.code).toBe('E_NOT_FOUND')
  // two places at once are refused with their place
  const both = await amend({ begins: eight, set: { to: '2026-06-12T09:30:00Z' } })
  expect(both.error).toMatchObject({ code: 'E_SURVEY_FILE' })
  await amend({ begins: nine, remove: true })
  expect(await placed()).toEqual([{ probe: 'TEMP-1', quadrat: 'Q1', from: eight, to: nine }])
})
