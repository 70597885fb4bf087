import { join } from 'node:path'
import { expect, test } from 'vitest'
import { connectMqtt } from '../support/mqtt-client.ts'
import { type HubProcess, startHub } from '../support/running-hub.ts'
import { CabledBoard } from '../support/serial-bench.ts'
import { SmallDisk } from '../support/small-disk.ts'

const pack = (board: string, message: number) =>
  `[{"bn":"${board}/","n":"startup","v":7},{"n":"message","v":${message}},{"n":"ph","u":"mV","v":${message}}]`

/** A board that publishes without waiting, and knows which of its messages were acknowledged. */
async function radioBoard(hub: HubProcess, name: string) {
  const client = await connectMqtt(hub.mqttUrl, { clientId: name, clean: false })
  const acknowledged = new Set<number>()
  return {
    acknowledged,
    publish: (message: number) =>
      client
        .publishAsync(`tussock/${name}/pack`, pack(name, message), { qos: 1 })
        .then(() => acknowledged.add(message)),
  }
}

function untilTrouble(hub: HubProcess, isInTrouble: boolean) {
  return hub.until(
    () => hub.now(),
    ({ trouble }) => (trouble !== null) === isInTrouble,
  )
}

test('on a full disk the hub runs on and says so; what waits is stored once there is space again', async () => {
  const disk = new SmallDisk(2_000_000)
  const cabled = await CabledBoard.plugIn()
  const hub = await startHub({ dataFolder: join(disk.folder, 'data'), args: ['--serial', cabled.path] })
  const radio = await radioBoard(hub, 'fern-2')
  await radio.publish(1)
  disk.fill()
  const waiting = [2, 3, 4].map((message) => radio.publish(message))
  const full = await untilTrouble(hub, true)
  expect(full.trouble).toMatch(/^E_DISK: The disk of .* takes no more .*Free some space/)
  for (const message of [1, 2, 3]) cabled.say(`${pack('sedge-1', message)}\n`)
  // pages and charts go on meanwhile
  expect((await hub.directory()).channels).toHaveLength(1)
  expect([...radio.acknowledged]).toEqual([1])
  expect(cabled.heard.filter((line) => line.startsWith('kept'))).toEqual([])
  disk.free()
  await Promise.all(waiting)
  await cabled.hears('kept 7 3')
  const again = await untilTrouble(hub, false)
  expect(again.tallies).toEqual({ readings: 7, messages: 7, repeats: 0, quarantined: 0 })
  expect(await hub.stop()).toMatchObject({ code: 0 })
  expect(hub.stderr).toBe('')
})

test('a hub killed while its disk is full has everything it acknowledged, and takes the rest when sent again', async () => {
  const disk = new SmallDisk(2_000_000)
  const dataFolder = join(disk.folder, 'data')
  const hub = await startHub({ dataFolder })
  const radio = await radioBoard(hub, 'fern-2')
  for (const message of [1, 2, 3]) await radio.publish(message)
  disk.fill()
  const unanswered = radio.publish(4)
  unanswered.catch(() => {})
  await untilTrouble(hub, true)
  await hub.kill()
  disk.free()
  const again = await startHub({ dataFolder })
  expect((await again.now()).tallies).toMatchObject({ readings: 3, messages: 3 })
  const sameBoard = await radioBoard(again, 'fern-2')
  for (const message of [3, 4]) await sameBoard.publish(message)
  expect((await again.now()).tallies).toMatchObject({ readings: 4, messages: 4, repeats: 1 })
})

test('a hub that is stopped while its disk is full says what it could not store, and keeps what it has', async () => {
  const disk = new SmallDisk(2_000_000)
  const dataFolder = join(disk.folder, 'data')
  const cabled = await CabledBoard.plugIn()
  const hub = await startHub({ dataFolder, args: ['--serial', cabled.path] })
  await cabled.hears(/^time /)
  cabled.say(`${pack('sedge-1', 1)}\n`)
  await cabled.hears('kept 7 1')
  disk.fill()
  cabled.say(`${pack('sedge-1', 2)}\n`)
  await untilTrouble(hub, true)
  expect(await hub.stop()).toMatchObject({ code: 1 })
  expect(hub.stderr).toMatch(/^E_DISK: .*Free some space/)
  expect(hub.stderr.trimEnd().split('\n')).toHaveLength(1)
  disk.free()
  const again = await startHub({ dataFolder })
  expect((await again.now()).tallies).toMatchObject({ readings: 1, messages: 1 })
})
