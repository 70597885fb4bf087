import { expect, test, vi } from 'vitest'
import { crc16, withTrailer } from '../../hub/wire/checksum.ts'
import { startHub } from '../support/running-hub.ts'
import { runTussock } from '../support/tussock-command.ts'
import { buildSketch } from './build-firmware.ts'
import { EmulatedBoard } from './emulated-board.ts'
import { plugInApart } from './own-cable.ts'
import { WifiBoard } from './wifi-board.ts'

// a board is asked for two intervals and heard for several samples: about 20 s
vi.setConfig({ testTimeout: 60_000 })

/** Verdict by point, as the command prints it: `name: verdict`. */
function verdicts(stdout: string): Record<string, string> {
  const points = stdout.matchAll(/^(right|wrong|not tested) +(\S.*?) {2,}.*$/gm)
  return Object.fromEntries([...points].map(([, verdict, name]) => [name!, verdict!]))
}

test('board-check finds nothing wrong with the serial board', async () => {
  const board = await EmulatedBoard.plugIn(buildSketch('serial-board'))
  const { code, stdout, stderr } = await runTussock('board-check', board.path)
  expect({ code, stderr, wrong: stdout.match(/^wrong.*$/gm) }).toEqual({ code: 0, stderr: '', wrong: null })
  expect(verdicts(stdout)).toEqual({
    SenML: 'right',
    name: 'right',
    units: 'right',
    checksum: 'right',
    length: 'right',
    numbers: 'right',
    repeats: 'right',
    kept: 'right',
    // what it had measured before the port's opening reset it is of an earlier start-up
    reset: expect.stringMatching(/^(right|not tested)$/),
    who: 'right',
    times: 'right',
    every: 'right',
    time: 'right',
    'unknown words': 'right',
  })
  expect(stdout).toMatch(/\n\d+ right, 0 wrong, \d not tested\n$/)
})

test('board-check finds nothing wrong with the Wi-Fi board, through a running hub', async () => {
  const hub = await startHub()
  new WifiBoard({ port: hub.mqttPort })
  const { code, stdout, stderr } = await runTussock('board-check', 'rush-1', '--broker', hub.mqttUrl)
  expect({ code, stderr, wrong: stdout.match(/^wrong.*$/gm) }).toEqual({ code: 0, stderr: '', wrong: null })
  expect(verdicts(stdout)).toMatchObject({
    SenML: 'right',
    'QoS 1': 'right',
    link: 'right',
    numbers: 'right',
    repeats: 'not tested',
    who: 'right',
    every: 'right',
    time: 'right',
    'unknown words': 'right',
  })
})

test('board-check names each thing that a deliberately wrong board does', async () => {
  const board = await plugInApart()
  let message = 10
  const line = (number: number, millivolt: number) =>
    `[{"bn":"sedge-1/","n":"startup","v":7},{"n":"message","v":${number}},{"n":"ph","u":"millivolts","v":${millivolt},"t":-3}]`
  // never listens; sends each message twice with other values and the same relative time; counts by two; garbles one in five
  const talking = setInterval(() => {
    message += 2
    const text = line(message, message)
    board.say(
      `${message % 10 === 0 ? `${text}#${crc16(Buffer.from('x')).toString(16)}` : withTrailer(text)}\n`,
    )
    board.say(`${withTrailer(line(message - 20, message))}\n`)
  }, 400)
  try {
    const { code, stdout, stderr } = await runTussock('board-check', board.path, '--patience', '3')
    expect({ code, stderr }).toEqual({ code: 1, stderr: '' })
    expect(verdicts(stdout)).toMatchObject({
      SenML: 'wrong',
      units: 'wrong',
      checksum: 'wrong',
      numbers: 'wrong',
      repeats: 'wrong',
      kept: 'wrong',
      who: 'wrong',
      times: 'wrong',
      every: 'wrong',
    })
    expect(stdout).toContain('"millivolts" is no SenML unit')
  } finally {
    clearInterval(talking)
  }
})

test('board-check of a board that prints columns, or nothing, says so and fails', async () => {
  const board = await plugInApart()
  const silent = await runTussock('board-check', board.path, '--patience', '1')
  expect(silent).toMatchObject({ code: 1, stderr: '' })
  expect(silent.stdout).toMatch(/^wrong +speaks +nothing came\n/)
  const talking = setInterval(() => board.say('512;23.1;880\n'), 300)
  try {
    const columns = await runTussock('board-check', board.path, '--patience', '1')
    expect(columns.code).toBe(1)
    expect(columns.stdout).toMatch(/^wrong +SenML +.*512;23\.1;880/m)
  } finally {
    clearInterval(talking)
  }
})

test('board-check says what keeps it from the board', async () => {
  const board = await plugInApart()
  const hub = await startHub({ args: ['--serial', board.path] })
  await hub.until(
    () => hub.directory(),
    ({ ports }) => ports[0]?.state === 'open',
  )
  const said = async (...args: string[]) => {
    const { code, stderr } = await runTussock('board-check', ...args)
    return `${code} ${stderr}`
  }
  const answers = await Promise.all([
    said(board.path),
    said('/dev/ttyNOT-HERE'),
    said('rush-1', '--broker', 'mqtt://127.0.0.1:1'),
    said('rush-1'),
    said('rush-1', '--broker', 'somewhere'),
  ])
  expect(answers[0]).toMatch(/^1 E_PORT_BUSY: .*running hub/)
  expect(answers[1]).toMatch(/^1 E_PORT_MISSING: /)
  expect(answers[2]).toMatch(/^1 E_BROKER_GONE: /)
  expect(answers[3]).toMatch(/^2 E_COMMAND: .*--broker URL/)
  expect(answers[4]).toMatch(/^2 E_COMMAND: /)
})
