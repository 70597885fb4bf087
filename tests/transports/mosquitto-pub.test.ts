import { expect, test } from 'vitest'
import { startHub } from '../support/running-hub.ts'
import { runTussock } from '../support/tussock-command.ts'

test('the hub starts and ends', async () => {
  const hub = await startHub()
  expect((await hub.now()).tallies.readings).toBe(0)
  expect(hub.mqttPort).toBeGreaterThan(0)
  expect(await hub.stop()).toEqual({ code: 0, signal: null })
  expect((await runTussock('nonsense')).code).toBe(2)
})
