import { copyFileSync, existsSync, readdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import Database from 'better-sqlite3'
import { expect, test } from 'vitest'
import { connectMqtt } from '../support/mqtt-client.ts'
import { startHub } from '../support/running-hub.ts'
import { SmallDisk } from '../support/small-disk.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'
import { runTussock } from '../support/tussock-command.ts'

const pack = (number: number) =>
  JSON.stringify([
    { bn: 'sedge-1/', n: 'startup', v: 1 },
    { n: 'message', v: number },
    { n: 'temperature', u: 'Cel', v: 10 + number / 1000 },
  ])

function counts(file: string): { readings: number; distinct: number } {
  const database = new Database(file, { readonly: true })
  const [readings, distinct] = ['count(*)', 'count(DISTINCT signal)'].map((what) =>
    database.prepare(`SELECT ${what} FROM every_reading`).pluck().get(),
  ) as [number, number]
  database.close()
  return { readings, distinct }
}

test('a copy made while boards send holds everything acknowledged before it, and a restore brings it back', async () => {
  const hub = await startHub()
  const to = temporaryFolder()
  const client = await connectMqtt(hub.mqttUrl)
  let acknowledged = 0
  let isSending = true
  const sending = (async () => {
    for (let number = 1; isSending; number++) {
      await client.publishAsync('tussock/sedge-1/pack', pack(number), { qos: 1 })
      acknowledged = number
    }
  })()
  await pause(400)
  const before = acknowledged
  const made = await runTussock('backup', '--to', to, '--data', hub.dataFolder)
  const after = acknowledged
  expect(made.code).toBe(0)
  expect(made.stdout).toContain('read back and sound')
  expect(after).toBeGreaterThan(before) // the hub went on meanwhile
  const [name] = readdirSync(to)
  const copied = counts(join(to, name!))
  expect(copied.readings).toBeGreaterThanOrEqual(before)
  expect(copied.distinct).toBe(copied.readings)
  // the folder is in use: nothing is put in its place
  const refused = await runTussock('restore', to, '--data', hub.dataFolder)
  expect(refused.stderr).toContain('E_DATA_LOCKED')
  isSending = false
  await sending
  await client.endAsync()
  await hub.stop()
  const total = counts(join(hub.dataFolder, 'readings.sqlite')).readings
  expect(total).toBe(acknowledged)

  const restored = await runTussock('restore', to, '--data', hub.dataFolder)
  expect(restored.code).toBe(0)
  const again = await startHub({ dataFolder: hub.dataFolder })
  expect((await again.now()).tallies.readings).toBe(copied.readings)
  await again.stop()
  // what was there before is put aside, whole
  const aside = readdirSync(hub.dataFolder).find((file) => file.includes('.before-'))!
  expect(counts(join(hub.dataFolder, aside)).readings).toBe(total)
})

test('a corrupted page is detected and said, and the readings come back from the last sound backup', async () => {
  const folder = temporaryFolder()
  const to = temporaryFolder()
  const hub = await startHub({ dataFolder: folder })
  const client = await connectMqtt(hub.mqttUrl)
  for (let number = 1; number <= 500; number++)
    await client.publishAsync('tussock/sedge-1/pack', pack(number), { qos: 1 })
  await client.endAsync()
  await hub.stop()
  await runTussock('backup', '--to', to, '--data', folder)
  // a newer backup that was spoilt afterwards is passed over
  const [sound] = readdirSync(to)
  const spoilt = join(to, 'tussock-2099-01-01T00-00-00-000Z.sqlite')
  copyFileSync(join(to, sound!), spoilt)
  spoil(spoilt)
  spoil(join(folder, 'readings.sqlite'))
  const doctor = await runTussock('doctor', '--data', folder)
  expect(doctor.code).toBe(1)
  expect(doctor.stdout).toMatch(/database.*(malformed|corrupt|page|disk image|btree|Tree)/i)
  expect(doctor.stdout).toContain('tussock restore')
  const restored = await runTussock('restore', to, '--data', folder)
  expect(restored.stdout).toContain('500 readings')
  expect((await runTussock('doctor', '--data', folder)).stdout).toMatch(/ok +database/)
})

/** Writes over the middle pages of a database, as a worn SD card does. */
function spoil(file: string): void {
  const bytes = readFileSync(file)
  bytes.fill(0xa5, 4096 * 2, bytes.length - 4096)
  writeFileSync(file, bytes)
}

test('no copy is left that is not whole: a full stick and one pulled out are refused, and the older copies stay', async () => {
  const hub = await startHub()
  const client = await connectMqtt(hub.mqttUrl)
  for (let number = 1; number <= 200; number++)
    await client.publishAsync('tussock/sedge-1/pack', pack(number), { qos: 1 })
  await client.endAsync()
  const stick = new SmallDisk(2_000_000).folder
  const full = await runTussock('backup', '--to', stick, '--data', hub.dataFolder)
  expect(full.stderr).toContain('E_BACKUP')
  expect(readdirSync(stick)).toEqual([])
  const nowhere = await runTussock('backup', '--to', '/dev/null/nowhere', '--data', hub.dataFolder)
  expect(nowhere.stderr).toContain('E_BACKUP')
  const empty = await runTussock('restore', temporaryFolder(), '--data', temporaryFolder())
  expect(empty.stderr).toContain('E_RESTORE')
})

test('copies are made on a schedule and on demand, and only as many as wanted are kept', async () => {
  const to = temporaryFolder()
  const hub = await startHub({ args: ['--backup-to', to, '--backup-keep', '2'] })
  const made: string[] = []
  for (let time = 0; time < 3; time++) {
    const response = await fetch(`${hub.address}/api/backup`, { method: 'POST' })
    made.push(((await response.json()) as { file: string }).file)
    await pause(5)
  }
  expect(readdirSync(to).sort()).toEqual(made.slice(1).map((file) => file.slice(to.length + 1)))
  await hub.until(
    () => hub.now(),
    ({ backup }) => backup?.lastFile === made[2],
  )
  truncateSync(made[2]!, 100)
  expect((await runTussock('restore', made[2]!, '--data', temporaryFolder())).stderr).toContain('E_RESTORE')
  expect(existsSync(join(to, 'readings.sqlite'))).toBe(false)
})
