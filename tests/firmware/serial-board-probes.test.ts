import { expect, test } from 'vitest'
import { latestReadings } from '../support/latest-readings.ts'
import { type HubProcess, startHub } from '../support/running-hub.ts'
import { buildSketch } from './build-firmware.ts'
import { EmulatedBoard } from './emulated-board.ts'

/** One step of the ten-bit converter at 5 V, mV. */
const COUNT_MILLIVOLT = 5000 / 1024

/** What the emulated converter gives, as a number that is not yet whole. */
const counts = (millivolt: number) => (millivolt * 1023) / 5000

/** Waits until the newest message counted so many turns a second: then all of it was measured as the probes now stand. */
function latestWithWind(hub: HubProcess, hertz: number) {
  return hub.until(
    () => latestReadings(hub),
    // whole turns in a second, give or take the one under way
    (latest) => Math.abs((latest['sedge-1/wind']?.signal ?? -9) - hertz) <= (hertz > 0 ? 1 : 0),
  )
}

test('all five probes of the serial board come out of the hub as they were put in, at 115200 baud', async () => {
  const board = await EmulatedBoard.plugIn(buildSketch('serial-board', { INTERVAL_MILLIS: 1000 }))
  await board.order('volt 0 2.613', 'volt 1 1.847', 'light 23456', 'celsius 17.4375', 'cups 12 4 300')
  const hub = await startHub({ args: ['--serial', board.path] })
  const latest = await latestWithWind(hub, 12)
  expect(Math.abs(latest['sedge-1/ph']!.signal - 2613)).toBeLessThanOrEqual(COUNT_MILLIVOLT)
  expect(Math.abs(latest['sedge-1/moisture']!.signal - counts(1847))).toBeLessThanOrEqual(1)
  expect(latest['sedge-1/light']).toMatchObject({ signal: 23_456, unit: 'count' })
  expect(latest['sedge-1/temperature']).toMatchObject({ signal: 17.4375, unit: 'Cel' })
  // the supply against 1.1 V: one count of 225 is 22 mV
  expect(Math.abs(latest['sedge-1/battery']!.signal - 5000)).toBeLessThanOrEqual(23)

  await board.order('volt 0 0.2', 'volt 1 4.9', 'light 3', 'celsius -6.25', 'cups 0')
  const later = await latestWithWind(hub, 0)
  expect(Math.abs(later['sedge-1/ph']!.signal - 200)).toBeLessThanOrEqual(COUNT_MILLIVOLT)
  expect(Math.abs(later['sedge-1/moisture']!.signal - counts(4900))).toBeLessThanOrEqual(1)
  expect(later['sedge-1/light']!.signal).toBe(3)
  expect(later['sedge-1/temperature']!.signal).toBe(-6.25)
  expect((await hub.now()).tallies).toMatchObject({ repeats: 0, quarantined: 0 })
})

test('the thermistor variant gives ohms at 9600 baud, and the hub asks who it is and sets its clock', async () => {
  const firmware = buildSketch('serial-board', { INTERVAL_MILLIS: 1000, HAS_THERMISTOR: 1, BAUD_RATE: 9600 })
  const board = await EmulatedBoard.plugIn(firmware)
  // 10 kOhm above, 12.5 kOhm below
  await board.order(`volt 2 ${(5 * 12.5) / 22.5}`)
  const hub = await startHub({ args: ['--serial', `${board.path}@9600`] })
  const { boards, channels } = await hub.until(
    () => hub.directory(),
    // what was measured before the port was opened, and reset the board, is of the start-up before
    ({ boards }) => boards[0]?.about?.startsWith('serial board') === true && boards[0].startup === 2,
  )
  expect(boards[0]!.name).toBe('sedge-1')
  const temperature = channels.find(({ channel }) => channel === 'temperature')
  expect(temperature?.signalUnit).toBe('Ohm')
  // one count at half scale is 40 ohm
  expect(Math.abs(temperature!.latest![3] - 12_500)).toBeLessThanOrEqual(60)
  const explained = await hub.until(
    async () => {
      const id = (await hub.directory()).channels[0]!.latest![0]
      return hub.get<{ timeOrigin: string; time: string; message: { arrived: string } }>(
        `/api/readings/${id}`,
      )
    },
    ({ timeOrigin }) => timeOrigin === 'board clock',
  )
  const lateMs = Date.parse(explained.message.arrived) - Date.parse(explained.time)
  expect(lateMs).toBeGreaterThan(-200)
  expect(lateMs).toBeLessThan(3000)
})

test('a probe missing on its bus is missing in the message, said when asked, and back when it is back', async () => {
  const board = await EmulatedBoard.plugIn(buildSketch('serial-board', { INTERVAL_MILLIS: 1000 }))
  await board.order('volt 0 2.5', 'light 500', 'celsius 12', 'light gone', 'thermometer gone')
  const hub = await startHub({ args: ['--serial', board.path] })
  const { boards, channels } = await hub.until(
    () => hub.directory(),
    (directory) => directory.boards[0]?.about !== null && directory.boards[0]?.about !== undefined,
  )
  expect(channels.map(({ channel }) => channel).sort()).toEqual(['battery', 'moisture', 'ph', 'wind'])
  expect(boards[0]!.about).toContain('no light sensor answers; no thermometer answers')
  await board.order('light there', 'thermometer there')
  await hub.until(
    () => hub.directory(),
    (directory) => directory.channels.length === 6,
  )
  const latest = await latestReadings(hub)
  expect(latest['sedge-1/light']!.signal).toBe(500)
  expect(latest['sedge-1/temperature']!.signal).toBe(12)
})

test('a weak supply shows in the battery, and all that is measured against it shifts together', async () => {
  const board = await EmulatedBoard.plugIn(buildSketch('serial-board', { INTERVAL_MILLIS: 1000 }))
  await board.order('volt 0 2', 'volt 1 2', 'supply 4.6')
  const hub = await startHub({ args: ['--serial', board.path] })
  await hub.until(
    () => hub.now(),
    ({ tallies }) => tallies.messages >= 1,
  )
  const latest = await latestReadings(hub)
  expect(Math.abs(latest['sedge-1/battery']!.signal - 4600)).toBeLessThanOrEqual(20)
  const shifted = (2 / 4.6) * 5000
  expect(Math.abs(latest['sedge-1/ph']!.signal - shifted)).toBeLessThanOrEqual(COUNT_MILLIVOLT)
})
