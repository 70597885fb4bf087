import { cpSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import Database from 'better-sqlite3'
import { expect, test } from 'vitest'
import { LONG_MS, tellCounts, times } from '../support/fault-counts.ts'
import { holdAgainst, keptMessages } from '../support/kept-messages.ts'
import { connectMqtt } from '../support/mqtt-client.ts'
import { olderFolder } from '../support/older-folder.ts'
import { HubProcess, startHub } from '../support/running-hub.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'
import { runTussock, spawnTussock } from '../support/tussock-command.ts'

const KILLS = times(5)
const MESSAGES = 30_000

const fileOf = (folder: string) => join(folder, 'readings.sqlite')

function versionOf(folder: string): number {
  const database = new Database(fileOf(folder), { readonly: true })
  const version = database.pragma('user_version', { simple: true }) as number
  database.close()
  return version
}

const pack = (number: number, celsius: number) =>
  JSON.stringify([
    { bn: 'sedge-1/', n: 'startup', v: 1 },
    { n: 'message', v: number },
    { n: 'temperature', u: 'Cel', v: celsius },
  ])

const sent = () => [
  { name: 'sedge-1', acknowledged: Array.from({ length: MESSAGES }, (_, place) => place + 1) },
]

test('a database of the first version opens with all that is in it, and its messages are still known when they come again', async () => {
  const folder = temporaryFolder()
  olderFolder(folder, MESSAGES)
  const hub = await startHub({ dataFolder: folder })
  expect(versionOf(folder)).toBeGreaterThan(1)
  expect((await hub.now()).tallies).toMatchObject({ readings: MESSAGES, messages: MESSAGES, repeats: 0 })
  const { channels } = await hub.directory()
  expect(channels).toMatchObject([{ board: 'sedge-1', channel: 'temperature', quadrat: 'Q1' }])
  const client = await connectMqtt(hub.mqttUrl)
  for (const number of [1, 250, MESSAGES])
    await client.publishAsync('tussock/sedge-1/pack', pack(number, (number % 300) / 10), { qos: 1 })
  await client.publishAsync('tussock/sedge-1/pack', pack(MESSAGES + 1, 1), { qos: 1 })
  expect((await hub.now()).tallies).toMatchObject({ messages: MESSAGES + 1, repeats: 3, quarantined: 0 })
  await hub.stop()
  const kept = keptMessages(folder)
  expect(kept.integrity).toBe('ok')
  expect(holdAgainst(kept, sent(), 1)).toMatchObject({ stored: MESSAGES + 1, lost: 0, doubled: 0 })
})

test(
  `killed ${KILLS} times while it opens a database of the first version, the hub completes it at the next start, and all is there`,
  async () => {
    const pristine = temporaryFolder()
    olderFolder(pristine, MESSAGES)
    const opening = (folder: string): HubProcess => {
      const args = ['start', '--data', folder, '--port', '0', '--mqtt-port', '0']
      return new HubProcess(spawnTussock(args), folder)
    }
    const trial = temporaryFolder()
    cpSync(pristine, trial, { recursive: true })
    const begun = performance.now()
    const untroubled = opening(trial)
    await untroubled.ready
    const wholeMs = performance.now() - begun
    await untroubled.stop()
    const present = versionOf(trial)
    const found: number[] = []
    for (let kill = 0; kill < KILLS; kill++) {
      const folder = temporaryFolder()
      cpSync(pristine, folder, { recursive: true })
      const hub = opening(folder)
      // starting the program itself is about the first third of it; the first kill surely comes before the end
      await pause(wholeMs * (kill === 0 ? 0.2 : 0.3 + 0.6 * Math.random()))
      await hub.kill()
      found.push(versionOf(folder))
      const cut = keptMessages(folder)
      expect(cut.integrity).toBe('ok')
      expect(holdAgainst(cut, sent(), 1)).toMatchObject({ stored: MESSAGES, lost: 0, doubled: 0 })
      const again = await startHub({ dataFolder: folder })
      expect((await again.now()).tallies).toMatchObject({ messages: MESSAGES, readings: MESSAGES })
      await again.stop()
      expect(versionOf(folder)).toBe(present)
      const kept = keptMessages(folder)
      expect(kept.integrity).toBe('ok')
      expect(holdAgainst(kept, sent(), 1)).toMatchObject({ stored: MESSAGES, lost: 0, doubled: 0 })
    }
    // some of the kills came before it was through
    expect(Math.min(...found)).toBeLessThan(present)
    tellCounts({
      what: 'kill -9 while a database of the first version is opened',
      times: KILLS,
      sent: MESSAGES * KILLS,
      acknowledged: MESSAGES * KILLS,
      stored: MESSAGES * KILLS,
      doubled: 0,
      lost: 0,
    })
  },
  LONG_MS,
)

test('a database of a newer version is refused in one line of words, and left as it is', async () => {
  const folder = temporaryFolder()
  olderFolder(folder, 200)
  const database = new Database(fileOf(folder))
  database.pragma('user_version = 999')
  database.close()
  const refused = await runTussock('start', '--data', folder, '--port', '0', '--mqtt-port', '0')
  expect(refused).toMatchObject({ code: 1, stdout: '' })
  expect(refused.stderr).toMatch(/^E_DATA_NEWER: .* was written by a newer Tussock .* Use the newer Tussock/)
  expect(refused.stderr.trimEnd().split('\n')).toHaveLength(1)
  expect(versionOf(folder)).toBe(999)
})
