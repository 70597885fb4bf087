import { join } from 'node:path'
import Database from 'better-sqlite3'
import { expect, test } from 'vitest'
import { exampleSurvey } from '../support/example-survey.ts'
import { connectMqtt } from '../support/mqtt-client.ts'
import { startHub } from '../support/running-hub.ts'
import { runTussock } from '../support/tussock-command.ts'

/** What a service manager, or a laptop that is shut down, waits for before it kills. */
const STORED_WITHIN_MS = 2000

test('told to end in the middle of a flood and a download, it stores all that came in, at once, and says so', async () => {
  const hub = await startHub()
  await hub.send('PUT', '/api/surveys/example', exampleSurvey())
  const client = await connectMqtt(hub.mqttUrl, { reconnectPeriod: 0 })
  const acknowledged = new Set<number>()
  let isGoing = true
  let sent = 0
  const pack = (number: number) =>
    JSON.stringify([
      { bn: 'sedge-1/', n: 'startup', v: 1 },
      { n: 'message', v: number },
      { n: 'x', u: 'mV', v: number },
    ])
  const flood = () => {
    if (!isGoing) return
    for (let more = 0; more < 200; more++) {
      const number = ++sent
      client.publish('tussock/sedge-1/pack', pack(number), { qos: 1 }, (error) => {
        if (!error) acknowledged.add(number)
      })
    }
    setTimeout(flood, 5)
  }
  flood()
  await hub.until(
    () => hub.now(),
    ({ tallies }) => tallies.readings > 5000,
  )
  const download = hub.request('/api/surveys/example/export/workbook').then((answer) => answer.arrayBuffer())
  download.catch(() => {})
  const end = await hub.stop()
  isGoing = false
  expect(end).toEqual({ code: 0, signal: null })

  const database = new Database(join(hub.dataFolder, 'readings.sqlite'), { readonly: true })
  const kept = new Set(database.prepare('SELECT number FROM message').pluck().all() as number[])
  expect(database.prepare('SELECT count(*) FROM message').pluck().get()).toBe(kept.size)
  database.close()
  expect([...acknowledged].filter((number) => !kept.has(number))).toEqual([])
  const { stdout } = await runTussock('log', '--data', hub.dataFolder)
  const [, ms] = /stopping: all that came in is stored, after (\d+) ms/.exec(stdout) ?? []
  expect(Number(ms)).toBeLessThan(STORED_WITHIN_MS)
  expect(stdout).toContain('board sedge-1: heard for the first time')
})

test('the log can be read for what went wrong alone, and as JSON', async () => {
  const hub = await startHub({ args: ['--serial', '/dev/there-is-no-such-port'] })
  await hub.until(
    () => hub.directory(),
    ({ ports }) => ports[0]?.trouble != null,
  )
  await hub.stop()
  const { stdout } = await runTussock('log', '--wrong', '--json', '--data', hub.dataFolder)
  const lines = stdout
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line))
  expect(lines[0]).toMatchObject({ level: 'warning', what: 'port /dev/there-is-no-such-port' })
  const nowhere = await runTussock('log', '--data', join(hub.dataFolder, 'elsewhere'))
  expect(nowhere).toMatchObject({ code: 1, stdout: '' })
})
