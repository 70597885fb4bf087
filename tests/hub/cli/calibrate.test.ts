import { spawn } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { describe, expect, test } from 'vitest'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'
import { startHub } from '../../support/running-hub.ts'
import { SmallHub } from '../../support/small-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'
import { builtCommand, runTussock } from '../../support/tussock-command.ts'

function folderWithReadings(): string {
  const data = temporaryFolder()
  const hub = new SmallHub(data)
  hub.keeper.save(exampleSurvey(), 'test')
  for (let second = 0; second < 5; second++)
    hub.send(nineOClock + second * 1000, [
      { bn: 'sedge-1/', n: 'ph', u: 'mV', v: 84 + second },
      { n: 'temperature', u: 'Cel', v: 15.5 },
    ])
  hub.close()
  return data
}

function pointsFile(json: unknown): string {
  const path = join(temporaryFolder(), 'points.json')
  writeFileSync(path, JSON.stringify(json))
  return path
}

const buffers = (seven: number, four: number) => ({
  procedure: 'ph-buffers',
  settings: { signalIs: 'electrode' },
  points: [
    {
      signal: seven,
      scatter: 0.2,
      n: 4,
      fields: { bufferSet: 'technical', buffer: '7', temperatureCelsius: 15, lot: 'K7' },
    },
    {
      signal: four,
      scatter: 0.2,
      n: 4,
      fields: { bufferSet: 'technical', buffer: '4', temperatureCelsius: 15 },
    },
  ],
})
// story A02's electrode: 95 % of the ideal slope, so that values move
const file = () => pointsFile(buffers(-4, 161.5))
const at = ['--valid-from', '2026-06-12T08:30:00Z', '--by', 'group 3']

describe('tussock calibrate --points', () => {
  test('shows slope, residuals, budget, verdict and what would change, and saves nothing unless told to', async () => {
    const data = folderWithReadings()
    const shown = await runTussock('calibrate', 'PH-1', '--points', file(), ...at, '--data', data)
    expect(shown.stdout).toMatch(/slope percent +95\.\d/)
    expect(shown.stdout).toMatch(/95 % interval +±0\.\d/)
    expect(shown.stdout).toMatch(/Verdict: PASS/)
    expect(shown.stdout).toMatch(/Q1 +soil_ph +5\.\d+ → 5\.\d+ pH {2}\(5 readings\)/)
    expect(shown.stdout).toContain('Not saved.')
    expect((await runTussock('survey', 'save', '--data', data)).stdout).not.toContain('group 3')
  })

  test('accepted, it is stored with lots and points, and the stored values move as foretold', async () => {
    const data = folderWithReadings()
    const saved = await runTussock('calibrate', 'PH-1', '--points', file(), ...at, '--accept', '--data', data)
    expect(saved).toMatchObject({
      code: 0,
      stdout: expect.stringContaining('Saved as PH-1-20260612-0830, in force'),
    })
    const survey = JSON.parse((await runTussock('survey', 'save', '--data', data)).stdout)
    expect(survey.calibrations.at(-1)).toMatchObject({
      id: 'PH-1-20260612-0830',
      by: 'group 3',
      recipe: { kind: 'ph-electrode', points: [{ lot: 'K7', scatterMillivolt: 0.2 }, {}] },
    })
    const foretold = /→ (5\.\d+) pH/.exec(saved.stdout)![1]!
    const rows = (await runTussock('export', 'readings', '--quantity', 'soil_ph', '--data', data)).stdout
      .trim()
      .split('\r\n')
      .slice(1)
    const values = rows.map((row) => Number(row.split(',')[6]))
    expect(rows.every((row) => row.includes('PH-1-20260612-0830'))).toBe(true)
    expect(values.reduce((sum, value) => sum + value, 0) / 5).toBeCloseTo(Number(foretold), 3)
  })

  test('a running hub takes it in', async () => {
    const hub = await startHub({ dataFolder: folderWithReadings() })
    const saved = await runTussock(
      'calibrate',
      'PH-1',
      '--points',
      file(),
      ...at,
      '--accept',
      '--data',
      hub.dataFolder,
    )
    expect(saved).toMatchObject({ code: 0, stderr: '' })
    const survey = await hub.get<ReturnType<typeof exampleSurvey>>('/api/surveys/example')
    expect(survey.calibrations.at(-1)?.id).toBe('PH-1-20260612-0830')
    await hub.until(
      () => hub.now(),
      (now) => !now.isRecomputing,
    )
    await hub.stop()
  })

  test('swapped buffers fail with advice; saved, they stay on record and the calibration before stays in force', async () => {
    const data = folderWithReadings()
    const swapped = pointsFile(buffers(176.3, 6))
    const saved = await runTussock(
      'calibrate',
      'PH-1',
      '--points',
      swapped,
      ...at,
      '--accept',
      '--data',
      data,
    )
    expect(saved.stdout).toMatch(/Verdict: FAIL/)
    expect(saved.stdout).toMatch(/swap/i)
    expect(saved.stdout).toContain('on record; the calibration before it stays in force')
    expect((await runTussock('export', 'readings', '--data', data)).stdout).toContain(',ph-cal-1,')
    const sheet = await runTussock('readiness', '--data', data)
    expect(sheet.stdout).toMatch(/PH-1 +soil_ph +failed/)
    expect(sheet).toMatchObject({ code: 1, stdout: expect.stringContaining('0 of 3 probes may go out.') })
  })

  test('a wrong file, an unknown probe and a time without a zone are refused by name', async () => {
    const data = folderWithReadings()
    const run = async (...args: string[]) => (await runTussock('calibrate', ...args, '--data', data)).stderr
    expect(await run('PH-1', '--points', pointsFile({ procedure: 'magic', points: [] }))).toContain(
      'E_CALIBRATION_FILE',
    )
    expect(
      await run('PH-1', '--points', pointsFile({ kind: 'ph-electrode', points: [{ millivolt: '6' }] })),
    ).toMatch(/E_CALIBRATION_FILE: .*points\[0\]\.millivolt/)
    expect(await run('PH-9', '--points', file())).toContain('E_NOT_FOUND')
    expect(await run('PH-1', '--points', file(), '--valid-from', '2026-06-12T08:30')).toContain('E_QUERY')
    expect(await run('PH-1')).toContain('E_NO_HUB')
    expect(
      (
        await runTussock(
          'calibrate',
          'PH-1',
          '--points',
          pointsFile({ ...buffers(6, 176), points: [] }),
          '--data',
          data,
        )
      ).stdout,
    ).toContain('No curve can be drawn.')
  })
})

describe('tussock calibrate at the bench', () => {
  test('with its answers from a pipe: two held buffers, each kept when steady, make a calibration', async () => {
    const hub = await startHub({ args: ['--rehearsal', '--bench', '--speed', '20', '--seed', '7'] })
    const data = /^ {2}data {3}(.*)$/m.exec(hub.stdout)![1]!
    await hub.until(
      () => hub.directory(),
      ({ channels }) => channels.some(({ probe }) => probe === 'ph-2'),
    )
    const bench = spawn(process.execPath, [
      builtCommand,
      'calibrate',
      'ph-2',
      '--accept',
      '--by',
      'g4',
      '--data',
      data,
    ])
    let said = ''
    bench.stdout.setEncoding('utf8').on('data', (text: string) => {
      said += text
    })
    const ended = new Promise<number | null>((resolve) => bench.once('close', resolve))
    const saidSo = (times: number) => async () => said.split('Kept ').length > times
    // gain, bias, what the signal is, lowest and highest pH; then a point: set, buffer, pH on the bottle, °C, lot, use by
    bench.stdin.write('\n\n\n\n\n' + '\n\n7\n\n17\n\n\n')
    await hub.until(saidSo(1), Boolean)
    await hub.send('POST', '/api/rehearsal/put', {
      board: 'moss-2',
      channel: 'ph',
      where: 'buffer-4',
      celsius: 17,
    })
    await pause(3000) // a minute of the class's time: ten time constants of the electrode
    bench.stdin.end('\n\n4\n\n17\n\n\nf\n')
    expect(await ended).toBe(0)
    expect(said).toMatch(/Verdict: PASS\n/)
    const survey = await hub.get<SurveyFile>('/api/surveys/rehearsal-7')
    expect(survey.calibrations).toMatchObject([
      { probe: 'ph-2', by: 'g4', recipe: { points: [{ buffer: '7' }, { buffer: '4' }] } },
    ])
    await hub.stop()
  })
  test('answers that end too early are said, not swallowed', async () => {
    const hub = await startHub({ args: ['--rehearsal', '--bench', '--speed', '20'] })
    const data = /^ {2}data {3}(.*)$/m.exec(hub.stdout)![1]!
    await hub.until(
      () => hub.directory(),
      ({ channels }) => channels.some(({ probe }) => probe === 'ph-2'),
    )
    const ended = await runTussock('calibrate', 'ph-2', '--data', data)
    expect(ended).toMatchObject({
      code: 2,
      stderr: expect.stringContaining('E_COMMAND: The answers end before'),
    })
    await hub.stop()
  })
})
