import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { exampleSurvey } from '../support/example-survey.ts'
import { latestReadings } from '../support/latest-readings.ts'
import { startHub } from '../support/running-hub.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'
import { runTussock } from '../support/tussock-command.ts'
import { buildSketch } from './build-firmware.ts'
import { EmulatedBoard } from './emulated-board.ts'

const sketch = new URL('../../firmware-notes/first-lesson/first-lesson.ino', import.meta.url)

test('the sketch of the first lesson fits on a screen', () => {
  expect(readFileSync(fileURLToPath(sketch), 'utf8').trimEnd().split('\n').length).toBeLessThanOrEqual(20)
})

test('its numbers are kept without a map, and become channels once a column map names them', async () => {
  const board = await EmulatedBoard.plugIn(buildSketch('first-lesson'))
  await board.order('volt 0 2.5', 'volt 1 1.25', 'volt 2 4')
  const hub = await startHub({ args: ['--serial', `${board.path}@9600`] })
  await hub.until(
    () => hub.directory(),
    ({ channels }) => channels.length === 3,
  )
  const { channels } = await hub.directory()
  expect(channels.map(({ channel }) => channel).sort()).toEqual(['c1', 'c2', 'c3'])

  const survey = exampleSurvey()
  survey.boards = [
    {
      name: 'sedge-1',
      serialPort: { path: board.path, baudRate: 9600 },
      columns: {
        separator: 'semicolon',
        decimal: 'point',
        channels: [
          { channel: 'ph', unit: 'count' },
          { channel: 'moisture', unit: 'count' },
          { channel: 'light', unit: 'count' },
        ],
      },
    },
  ]
  const file = join(temporaryFolder(), 'survey.json')
  writeFileSync(file, JSON.stringify(survey))
  expect(await runTussock('survey', 'load', file, '--data', hub.dataFolder)).toMatchObject({ code: 0 })
  await hub.until(
    () => hub.directory(),
    (directory) =>
      ['ph', 'moisture', 'light'].every((name) => directory.channels.some(({ channel }) => channel === name)),
  )
  const latest = await latestReadings(hub)
  for (const [channel, count] of Object.entries({ ph: 511.5, moisture: 255.75, light: 818.4 }))
    expect(Math.abs(latest[`sedge-1/${channel}`]!.signal - count)).toBeLessThanOrEqual(1)
})

test('opened in the middle of a line, the rest of it is not taken for numbers', async () => {
  const board = await EmulatedBoard.plugIn(buildSketch('first-lesson'), { resetOnOpenMs: null })
  await board.order('volt 0 2.5', 'volt 1 2.5', 'volt 2 2.5')
  const hub = await startHub({ args: ['--serial', `${board.path}@9600`] })
  await hub.until(
    () => hub.now(),
    ({ tallies }) => tallies.messages >= 2,
  )
  const { channels } = await hub.directory()
  for (const { latest } of channels) expect(Math.abs(latest![3] - 511)).toBeLessThanOrEqual(1)
  expect(channels.length).toBe(3)
})
