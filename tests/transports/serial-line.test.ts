import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { withTrailer } from '../../hub/wire/checksum.ts'
import { joinCable } from '../support/cable-pair.ts'
import { exampleSurvey } from '../support/example-survey.ts'
import { latestReadings } from '../support/latest-readings.ts'
import { startProgram } from '../support/needed-program.ts'
import { type HubProcess, startHub } from '../support/running-hub.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'
import { runTussock } from '../support/tussock-command.ts'

/** A board in a few lines of shell: prints its lines, and ends once it has heard the last of the answers awaited. */
async function shellBoard(path: string, lines: readonly string[], awaited: string | null): Promise<string[]> {
  const script = `
    exec 3<>"$1"; shift
    last=$1; shift
    for line in "$@"; do printf '%s\\r\\n' "$line" >&3; done
    [ -z "$last" ] || while IFS= read -r heard <&3; do
      printf '%s\\n' "$heard"
      if [ "$heard" = "$last" ]; then exit 0; fi
    done`
  const board = startProgram('sh', ['-c', script, 'board', path, awaited ?? '', ...lines])
  let heard = ''
  board.stdout?.setEncoding('utf8').on('data', (text: string) => {
    heard += text
  })
  const code = await new Promise((resolve) => board.once('close', resolve))
  if (code !== 0) throw new Error(`the board's script ended with ${code}`)
  return heard.trimEnd().split('\n')
}

function portOpen(hub: HubProcess) {
  return hub.until(
    () => hub.directory(),
    ({ ports }) => ports[0]?.state === 'open',
  )
}

const pack = (message: number, millivolt: number) =>
  `[{"bn":"sedge-1/","n":"startup","v":7},{"n":"message","v":${message}},{"n":"ph","u":"mV","v":${millivolt}}]`

test('a shell script that prints SenML with checksums is a board, and is told what is kept', async () => {
  const cable = await joinCable()
  const hub = await startHub({ args: ['--serial', cable.hubEnd] })
  await portOpen(hub)
  const lines = [1, 2, 3].map((message) => withTrailer(pack(message, 80 + message)))
  const heard = await shellBoard(cable.boardEnd, lines, 'kept 7 3')
  expect(heard.filter((line) => line.startsWith('kept'))).toEqual(['kept 7 1', 'kept 7 2', 'kept 7 3'])
  expect((await hub.now()).tallies).toEqual({ readings: 3, messages: 3, repeats: 0, quarantined: 0 })
  expect(await latestReadings(hub)).toMatchObject({ 'sedge-1/ph': { signal: 83, unit: 'mV' } })
})

test('a message sent again over the cable is answered again, and stored once', async () => {
  const cable = await joinCable()
  const hub = await startHub({ args: ['--serial', `${cable.hubEnd}@57600`] })
  const { ports } = await portOpen(hub)
  expect(ports).toMatchObject([{ path: cable.hubEnd, baudRate: 57_600, trouble: null }])
  await shellBoard(cable.boardEnd, [pack(1, 84)], 'kept 7 1')
  await shellBoard(cable.boardEnd, [pack(1, 84), pack(2, 85)], 'kept 7 2')
  expect((await hub.now()).tallies).toMatchObject({ readings: 2, repeats: 1 })
})

test('a sketch that prints columns with decimal commas is read by the map its survey holds', async () => {
  const cable = await joinCable()
  const survey = exampleSurvey()
  survey.boards = [
    {
      name: 'sedge-1',
      serialPort: { path: cable.hubEnd, baudRate: 9600 },
      columns: {
        separator: 'semicolon',
        decimal: 'comma',
        channels: [null, { channel: 'ph', unit: 'mV' }, { channel: 'temperature', unit: 'Cel' }],
      },
    },
  ]
  const file = join(temporaryFolder(), 'survey.json')
  writeFileSync(file, JSON.stringify(survey))
  // the port is named on the command line too, as a teacher in a hurry does
  const hub = await startHub({ args: ['--serial', `${cable.hubEnd}@9600`] })
  expect(await runTussock('survey', 'load', file, '--data', hub.dataFolder)).toMatchObject({ code: 0 })
  await portOpen(hub)
  const lines = [withTrailer('1;83,0;15,5'), '2;84,0;15,5', '3;85,0']
  await shellBoard(cable.boardEnd, lines, null)
  await hub.untilReadings(4)
  const latest = await latestReadings(hub)
  expect(latest['sedge-1/ph']).toMatchObject({ signal: 84, unit: 'mV', quadrat: 'Q1' })
  expect(latest['sedge-1/ph']!.value).toBeCloseTo(5.65, 2)
  expect(latest['sedge-1/temperature']!.value).toBeCloseTo(15, 6)
  const [short] = await hub.until(
    () => hub.quarantined(),
    (list) => list.length > 0,
  )
  expect(short).toMatchObject({ code: 'E_COLUMNS', board: 'sedge-1', shown: '3;85,0' })
  expect(short!.message).toContain('2 columns, the map expects 3')
})
