import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { strToU8, unzipSync, zipSync } from 'fflate'
import { parquetMetadata } from 'hyparquet'
import { describe, expect, test } from 'vitest'
import type { StudySummary } from '../../../hub/contract/study.ts'
import { startHub } from '../../support/running-hub.ts'
import { SmallHub } from '../../support/small-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'
import { runTussock } from '../../support/tussock-command.ts'
import { filesOf, rowsOf } from '../export/read-archive.ts'
import { fillStudy, studySurvey } from '../export/study-hub.ts'

const KINDS = [
  ['tables', 'zip'],
  ['darwin-core', 'zip'],
  ['parquet', 'parquet'],
  ['workbook', 'xlsx'],
  ['bundle', 'zip'],
] as const

function filledFolder(): string {
  const folder = temporaryFolder()
  fillStudy(folder)
  return folder
}

async function exportTo(data: string, name: string, ...more: string[]): Promise<string> {
  const out = join(temporaryFolder(), name)
  const ended = await runTussock('export', name, '--data', data, '--out', out, ...more)
  expect([name, ended]).toEqual([name, { code: 0, stdout: '', stderr: '' }])
  return out
}

describe('tussock export', () => {
  test('--list names each file that can be made', async () => {
    const { stdout } = await runTussock('export', '--list')
    const lines = stdout.trim().split('\n')
    expect(lines.map((line) => line.split(/\s+/)[0])).toEqual(['readings', ...KINDS.map(([name]) => name)])
  })

  test('writes each kind from the data folder alone, and the page’s download has the same tables', async () => {
    const data = filledFolder()
    const hub = await startHub({ dataFolder: data })
    const listed = await hub.get<{ exports: { name: string }[] }>('/api/exports')
    expect(listed.exports.map(({ name }) => name)).toEqual(KINDS.map(([name]) => name))
    for (const [name, extension] of KINDS) {
      const written = readFileSync(await exportTo(data, name))
      const response = await hub.request(`/api/surveys/example/export/${name}`)
      expect(response.headers.get('content-disposition')).toBe(
        `attachment; filename="example-${name}.${extension}"`,
      )
      const downloaded = Buffer.from(await response.arrayBuffer())
      if (name === 'parquet') {
        const rows = (file: Buffer) => parquetMetadata(new Uint8Array(file).buffer as ArrayBuffer).num_rows
        expect(rows(downloaded)).toBe(rows(written))
        continue
      }
      const [one, other] = [filesOf(written), filesOf(downloaded)]
      expect(Object.keys(other)).toEqual(Object.keys(one))
      for (const path of Object.keys(one).filter((each) => each.endsWith('.csv')))
        expect([path, other[path] === one[path]]).toEqual([path, true])
    }
    const head = await hub.request('/api/surveys/example/export/tables', { method: 'HEAD' })
    expect([head.status, head.headers.get('content-type')]).toEqual([200, 'application/zip'])
    const refused = await hub.request('/api/surveys/none/export/tables')
    expect(await refused.json()).toMatchObject({ error: { code: 'E_SURVEY_UNKNOWN' } })
    expect((await hub.request('/api/surveys/example/export/tables?coordinates=near')).status).toBe(400)
    expect((await hub.request('/api/surveys/example/export/poem')).status).toBe(400)
    await hub.stop()
  }, 120_000)

  test('writes to standard output too', async () => {
    const { stdout } = await runTussock('export', 'parquet', '--data', filledFolder())
    expect(stdout.startsWith('PAR1') && stdout.endsWith('PAR1')).toBe(true)
  })

  test('refuses by name what it does not know', async () => {
    const data = filledFolder()
    const refused = async (...args: string[]) => (await runTussock('export', ...args, '--data', data)).stderr
    expect(await refused('tables', '--set', 'all')).toContain('E_COMMAND: export tables has no option --set.')
    expect(await refused('readings', '--licence', 'CC0-1.0')).toContain('readings has no option --licence')
    expect(await refused('tables', '--licence', 'mine')).toContain('E_QUERY: --licence')
    expect(await refused('tables', '--survey', 'other')).toContain('E_SURVEY_UNKNOWN')
    expect(await refused('tables', '--out', join(data, 'no', 'such', 'folder'))).toContain(
      'cannot be written',
    )
  })

  test('of a rehearsal that goes on: each kind, and the bundle agrees', async () => {
    const hub = await startHub({ args: ['--rehearsal', '--speed', '20', '--seed', '5'] })
    await hub.until(
      () => hub.now(),
      ({ tallies }) => tallies.readings > 700,
    )
    const folder = /^ {2}data\s+(\S+)$/m.exec(hub.stdout)?.[1] ?? ''
    for (const [name] of KINDS) {
      const out = await exportTo(folder, name, '--survey', 'rehearsal-5')
      expect(readFileSync(out).length).toBeGreaterThan(1000)
      if (name !== 'bundle') continue
      const verified = await runTussock('verify', out)
      expect(verified).toMatchObject({ code: 0, stderr: '' })
      expect(Number(/(\d+) readings come to the same/.exec(verified.stdout)?.[1])).toBeGreaterThan(100)
    }
    await hub.stop()
  }, 180_000)
})

describe('tussock verify', () => {
  test('says what agrees and exits with 0; with --json as JSON', async () => {
    const bundle = await exportTo(filledFolder(), 'bundle')
    const { code, stdout } = await runTussock('verify', bundle)
    expect([code, stdout.trim().split('\n').at(-1)]).toEqual([0, 'Everything agrees.'])
    expect(stdout).toContain('agrees   391 readings come to the same values and flags.')
    expect(JSON.parse((await runTussock('verify', bundle, '--json')).stdout)).toMatchObject({
      isAgreed: true,
    })
  })

  test('names a changed sheet and the results it changes, and exits with 1', async () => {
    const bundle = await exportTo(filledFolder(), 'bundle')
    const files = unzipSync(readFileSync(bundle))
    const sheet = 'sheets/1-plants-of-12-June.csv'
    const text = Buffer.from(files[sheet]!).toString().replace('35%', '36%')
    writeFileSync(bundle, zipSync({ ...files, [sheet]: strToU8(text) }))
    const { code, stdout } = await runTussock('verify', bundle)
    expect(code).toBe(1)
    expect(stdout).toContain(`differs  ${sheet}: A byte of it was changed`)
    expect(stdout).toMatch(
      /differs {2}results\/join\.json\.wide\.rows\S*: It is 35, worked out again 36, a difference of 1\./,
    )
  })

  test('refuses what is no bundle, and asks for a name', async () => {
    const path = join(temporaryFolder(), 'x.zip')
    writeFileSync(path, 'no archive')
    expect(await runTussock('verify', path)).toMatchObject({
      code: 1,
      stderr: expect.stringMatching(/^E_BUNDLE_FILE: /),
    })
    expect((await runTussock('verify')).code).toBe(2)
  })
})

describe('tussock summarise', () => {
  test('prints n, value, ±, statistic and cautions; as CSV the table of the export, as JSON the hub’s answer', async () => {
    const data = filledFolder()
    const { stdout } = await runTussock('summarise', '--data', data)
    expect(stdout).toMatch(/^Soil temperature \(5 cm deep, carried\), °C$/m)
    expect(stdout).toMatch(/^ {2}Q2 +15\.35 +0\.57 +mean +3 of 3 +15\.34 +15\.36$/m)
    expect(stdout).toMatch(/^ {2}Q1 +5\.96 +– +median +120 of 120 /m)
    expect(stdout).toContain('Beware: ')
    const out = join(temporaryFolder(), 'summary.csv')
    await runTussock('summarise', '--data', data, '--out', out)
    const csv = readFileSync(out, 'utf8')
    expect(csv).toBe(filesOf(readFileSync(await exportTo(data, 'tables')))['summary.csv'])
    const json = JSON.parse((await runTussock('summarise', '--data', data, '--json')).stdout) as StudySummary
    expect(json.summaries.map(({ n }) => String(n))).toEqual(rowsOf(csv).map((row) => row['n']))
    const hub = await startHub({ dataFolder: data })
    expect(await hub.get('/api/surveys/example/summary')).toEqual(json)
    await hub.stop()
  })

  test('gives the mean of hydrogen ions only when asked, and refuses an unknown window', async () => {
    const data = filledFolder()
    const ask = (...more: string[]) => runTussock('summarise', '--data', data, ...more)
    expect((await ask()).stdout).not.toContain('H⁺')
    expect((await ask('--hydrogen-ions', '--window', 'common')).stdout).toMatch(/Only from [\s\S]* by H⁺/)
    expect(await ask('--window', 'some')).toMatchObject({
      code: 2,
      stderr: expect.stringContaining('--window'),
    })
  })

  test('of a survey without readings says so', async () => {
    const data = temporaryFolder()
    const hub = new SmallHub(data)
    hub.keeper.save(studySurvey(), 'test')
    hub.close()
    expect((await runTussock('summarise', '--data', data)).stdout).toBe('There are no clean readings yet.\n')
  })
})

describe('spot readings in survey files', () => {
  test('are saved with the survey, and loading keeps those that are not known yet', async () => {
    const data = filledFolder()
    const file = join(temporaryFolder(), 'survey.json')
    await runTussock('survey', 'save', '--to', file, '--data', data)
    const saved = JSON.parse(readFileSync(file, 'utf8'))
    expect(saved.spots.map(({ id }: { id: string }) => id)).toEqual(['spot-0000', 'spot-0001', 'spot-0002'])
    const elsewhere = join(temporaryFolder(), 'data')
    expect(await runTussock('survey', 'load', file, '--data', elsewhere)).toMatchObject({ code: 0 })
    const copy = new SmallHub(elsewhere)
    expect(copy.keeper.timelines.spots).toEqual(saved.spots)
    // revisions of the survey itself never hold them
    expect(copy.writer.surveys()).toEqual([studySurvey()])
    copy.close()
    expect(JSON.parse((await runTussock('survey', 'save', '--data', elsewhere)).stdout)).toEqual(saved)
    // a known one stays as it is here
    saved.spots[0].isTakenBack = true
    saved.spots.push({ ...saved.spots[1], id: 'spot-0009' })
    writeFileSync(file, JSON.stringify(saved))
    await runTussock('survey', 'load', file, '--data', elsewhere)
    const after = JSON.parse((await runTussock('survey', 'save', '--data', elsewhere)).stdout)
    expect(after.spots.map(({ isTakenBack }: { isTakenBack: boolean }) => isTakenBack)).toEqual([
      false,
      false,
      false,
      false,
    ])
    saved.spots[0].survey = 'another'
    writeFileSync(file, JSON.stringify(saved))
    const refused = await runTussock('survey', 'load', file, '--data', elsewhere)
    expect(refused.stderr).toContain('spots[0].survey: it is of survey "another"')
  })

  test('a running hub gives them when asked, and takes them in', async () => {
    const hub = await startHub({ dataFolder: filledFolder() })
    expect(await hub.get('/api/surveys/example')).toEqual(studySurvey())
    const whole = await hub.get<{ spots: unknown[] }>('/api/surveys/example?spots=included')
    expect(whole.spots).toHaveLength(3)
    const other = await startHub()
    await other.send('PUT', '/api/surveys/example', whole)
    await other.until(
      () => other.get<unknown>('/api/surveys/example?spots=included'),
      (answer) => JSON.stringify(answer) === JSON.stringify(whole),
    )
    await Promise.all([hub.stop(), other.stop()])
  })
})
