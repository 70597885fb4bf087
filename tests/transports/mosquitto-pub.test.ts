import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { exampleSurvey } from '../support/example-survey.ts'
import { latestReadings } from '../support/latest-readings.ts'
import { runProgram } from '../support/needed-program.ts'
import { type HubProcess, startHub } from '../support/running-hub.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'
import { runTussock } from '../support/tussock-command.ts'

function publish(hub: HubProcess, topic: string, message: string, ...options: string[]): void {
  const to = ['-h', '127.0.0.1', '-p', String(hub.mqttPort), '-t', topic]
  runProgram('mosquitto_pub', [...to, '-q', '1', '-m', message, ...options])
}

const pack = (message: number, millivolt: number) =>
  JSON.stringify([
    { bn: 'sedge-1/', n: 'startup', v: 7 },
    { n: 'message', v: message },
    { n: 'ph', u: 'mV', v: millivolt, t: -0.5 },
    { n: 'temperature', u: 'Cel', v: 15.5, t: -0.5 },
    { n: 'wind', u: 'Hz', v: 4 },
  ])

test('packs published with a general client are in the directory, calibrated, with their quadrat', async () => {
  const hub = await startHub()
  const file = join(temporaryFolder(), 'survey.json')
  writeFileSync(file, JSON.stringify(exampleSurvey()))
  const loaded = await runTussock('survey', 'load', file, '--data', hub.dataFolder)
  expect(loaded).toMatchObject({ code: 0, stderr: '' })
  const before = Date.now()
  publish(hub, 'tussock/sedge-1/pack', pack(1, 84))
  // acknowledged is durable: it is there at once, without waiting
  expect((await hub.now()).tallies).toEqual({ readings: 3, messages: 1, repeats: 0, quarantined: 0 })
  const latest = await latestReadings(hub)
  expect(latest['sedge-1/ph']).toMatchObject({
    signal: 84,
    unit: 'mV',
    valueUnit: 'pH',
    quadrat: 'Q1',
    flag: 1,
  })
  // 84.0 mV at 15 °C by that calibration is pH 5.65; 0.3 + 0.66 · 4 is 2.94 m/s
  expect(latest['sedge-1/ph']!.value).toBeCloseTo(5.65, 2)
  expect(latest['sedge-1/temperature']!.value).toBeCloseTo(15, 6)
  expect(latest['sedge-1/wind']!.value).toBeCloseTo(2.94, 6)
  expect(Math.abs(latest['sedge-1/ph']!.timeMs - before)).toBeLessThan(5000)
  expect(latest['sedge-1/wind']!.timeMs - latest['sedge-1/ph']!.timeMs).toBe(500)
})

test('the same message published again is stored once, and a killed hub has lost nothing it acknowledged', async () => {
  const hub = await startHub()
  for (const message of [1, 2, 2, 1]) publish(hub, 'tussock/sedge-1/pack', pack(message, 80 + message))
  await hub.kill()
  const again = await startHub({ dataFolder: hub.dataFolder })
  expect((await again.now()).tallies).toEqual({ readings: 6, messages: 2, repeats: 2, quarantined: 0 })
  publish(again, 'tussock/sedge-1/pack', pack(2, 82))
  expect((await again.now()).tallies).toMatchObject({ readings: 6, repeats: 3 })
})

test('of signals of one and the same moment, the one that came last is the newest', async () => {
  const hub = await startHub()
  const bt = Math.floor(Date.now() / 1000)
  for (const v of [3, 1, 2]) publish(hub, 'tussock/sedge-1/pack', JSON.stringify([{ n: 'ph', bt, v }]))
  expect(await latestReadings(hub)).toMatchObject({ 'sedge-1/ph': { signal: 2, timeMs: bt * 1000 } })
})

test('a link left retained tells that a board is up', async () => {
  const hub = await startHub()
  publish(hub, 'tussock/sedge-1/link', 'up', '-r')
  const { boards } = await hub.until(
    () => hub.directory(),
    ({ boards }) => boards.length > 0,
  )
  expect(boards).toMatchObject([{ name: 'sedge-1', link: 'up', isWaiting: true }])
})

test('a column line published by a board without a map is kept under c1, c2 …', async () => {
  const hub = await startHub()
  publish(hub, 'tussock/fern-2/columns', '512, 23.1, -8.8e2')
  const latest = await latestReadings(hub)
  expect(Object.entries(latest).map(([name, { signal, value }]) => [name, signal, value])).toEqual([
    ['fern-2/c1', 512, null],
    ['fern-2/c2', 23.1, null],
    ['fern-2/c3', -880, null],
  ])
})
