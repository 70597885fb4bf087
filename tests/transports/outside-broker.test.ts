import { expect, test } from 'vitest'
import { latestReadings } from '../support/latest-readings.ts'
import { runProgram } from '../support/needed-program.ts'
import { RealBroker } from '../support/real-broker.ts'
import { startHub } from '../support/running-hub.ts'

const pack = (message: number) =>
  `[{"bn":"sedge-1/","n":"startup","v":7},{"n":"message","v":${message}},{"n":"ph","u":"mV","v":${80 + message}}]`

function publish(broker: RealBroker, topic: string, message: string): void {
  runProgram('mosquitto_pub', ['-p', String(broker.port), '-t', topic, '-q', '1', '-m', message])
}

test('with a broker that is already there, the hub reads what boards publish to it', async () => {
  const broker = await RealBroker.start()
  const hub = await startHub({ args: ['--broker', broker.url] })
  expect(hub.mqttUrl).toBe(broker.url)
  await hub.until(
    () => hub.now(),
    (now) => now.broker.state === 'open',
  )
  publish(broker, 'tussock/sedge-1/pack', pack(1))
  await hub.untilReadings(1)
  expect(await latestReadings(hub)).toMatchObject({ 'sedge-1/ph': { signal: 81 } })
})

test('what boards publish while the hub is down or killed is read when it is back, none of it twice', async () => {
  const broker = await RealBroker.start()
  const first = await startHub({ args: ['--broker', broker.url] })
  await first.until(
    () => first.now(),
    (now) => now.broker.state === 'open',
  )
  publish(broker, 'tussock/sedge-1/pack', pack(1))
  await first.untilReadings(1)
  await first.kill()
  publish(broker, 'tussock/sedge-1/pack', pack(2))
  publish(broker, 'tussock/sedge-1/pack', pack(3))
  const second = await startHub({ args: ['--broker', broker.url], dataFolder: first.dataFolder })
  await second.untilReadings(3)
  expect(await second.stop()).toMatchObject({ code: 0 })
  publish(broker, 'tussock/sedge-1/pack', pack(4))
  const third = await startHub({ args: ['--broker', broker.url], dataFolder: first.dataFolder })
  await third.untilReadings(4)
  expect(await latestReadings(third)).toMatchObject({ 'sedge-1/ph': { signal: 84 } })
})

test('a broker that goes is said to be gone, and the hub goes on by itself once it is back', async () => {
  const broker = await RealBroker.start()
  const hub = await startHub({ args: ['--broker', broker.url] })
  const state = (wanted: string) =>
    hub.until(
      () => hub.now(),
      (now) => now.broker.state === wanted,
    )
  await state('open')
  await broker.stop()
  const gone = await state('gone')
  expect(gone.broker.trouble).toMatch(/^E_BROKER_GONE: .*Start the broker again/)
  await broker.start()
  publish(broker, 'tussock/sedge-1/pack', pack(1))
  expect((await state('open')).broker.trouble).toBeNull()
  await hub.untilReadings(1)
})
