import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'
import { startHub } from '../../support/running-hub.ts'
import { SmallHub } from '../../support/small-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'
import { runTussock } from '../../support/tussock-command.ts'

function surveyFile(folder: string, survey: unknown = exampleSurvey()): string {
  const path = join(folder, 'survey.json')
  writeFileSync(path, typeof survey === 'string' ? survey : JSON.stringify(survey))
  return path
}

describe('tussock survey', () => {
  test('what is loaded is saved again with the same content', async () => {
    const folder = temporaryFolder()
    const data = join(folder, 'data')
    const loaded = await runTussock('survey', 'load', surveyFile(folder), '--data', data)
    expect(loaded).toMatchObject({ code: 0, stderr: '' })
    const saved = await runTussock('survey', 'save', '--data', data)
    expect(JSON.parse(saved.stdout)).toEqual(exampleSurvey())
    const to = join(folder, 'saved.json')
    await runTussock('survey', 'save', 'example', '--to', to, '--data', data)
    expect(readFileSync(to, 'utf8')).toBe(saved.stdout)
    expect((await runTussock('survey', 'list', '--data', data)).stdout).toBe(
      'example\tEdge of an invented wood\t2 quadrats\n',
    )
  })

  test('a running hub takes a file in, and refuses a wrong one in the same words', async () => {
    const folder = temporaryFolder()
    const hub = await startHub()
    await runTussock('survey', 'load', surveyFile(folder), '--data', hub.dataFolder)
    expect((await hub.now()).surveys).toEqual([{ id: 'example', title: 'Edge of an invented wood' }])
    const survey = exampleSurvey()
    survey.quadrats[0]!.distanceMetres = 99
    const refused = await runTussock('survey', 'load', surveyFile(folder, survey), '--data', hub.dataFolder)
    expect(refused.code).toBe(1)
    expect(refused.stderr).toMatch(
      /^E_SURVEY_FILE: 1 fault in the survey: quadrats\[0\]\.distanceMetres: 99 m is past the end/,
    )
    await hub.stop()
  })

  test('a file that is no survey, no JSON or not there changes nothing', async () => {
    const folder = temporaryFolder()
    const data = join(folder, 'data')
    for (const wrong of ['{"tussockSurvey":1}', '{broken', '[]'])
      expect(await runTussock('survey', 'load', surveyFile(folder, wrong), '--data', data)).toMatchObject({
        code: 1,
        stderr: expect.stringContaining('E_SURVEY_FILE'),
      })
    expect((await runTussock('survey', 'load', join(folder, 'none.json'), '--data', data)).code).toBe(2)
    expect((await runTussock('survey', 'list', '--data', data)).stderr).toContain('E_DATA_NOT_OURS')
    await runTussock('survey', 'load', surveyFile(folder), '--data', data)
    expect((await runTussock('survey', 'save', 'other', '--data', data)).stderr).toContain('E_SURVEY_UNKNOWN')
  })

  test('its JSON Schema names every part of the file', async () => {
    const schema = JSON.parse((await runTussock('survey', 'schema')).stdout)
    expect(Object.keys(schema.properties)).toEqual(expect.arrayContaining(Object.keys(exampleSurvey())))
  })
})

describe('tussock export, explain, quarantine', () => {
  test('the export has the same bytes as the page’s download', async () => {
    const dataFolder = temporaryFolder()
    const small = new SmallHub(dataFolder)
    small.keeper.save(exampleSurvey(), 'test')
    for (let second = 0; second < 50; second++)
      small.send(nineOClock + second * 1000, [{ n: 'sedge-1/temperature', u: 'Cel', v: 10 + second }])
    small.close()
    const hub = await startHub({ dataFolder })
    for (const set of ['clean', 'all']) {
      const page = await (await hub.request(`/api/export/readings.csv?set=${set}`)).text()
      const command = await runTussock('export', 'readings', '--set', set, '--data', dataFolder)
      expect(command.stdout).toBe(page)
      expect(page.split('\r\n').length).toBe(set === 'clean' ? 33 : 52) // above 40 °C is suspect
    }
    const explained = JSON.parse((await runTussock('explain', '1024', '--data', dataFolder)).stdout)
    expect(explained).toMatchObject({ id: 1024, signal: 10, value: 9.5, quadrat: 'Q1' })
    expect(explained).toEqual(await hub.get('/api/readings/1024'))
    expect((await runTussock('explain', '999999', '--data', dataFolder)).stderr).toContain('E_NOT_FOUND')
    await hub.stop()
  })

  test('an unknown set, a time without a zone and an unknown table are refused by name', async () => {
    const data = temporaryFolder()
    new SmallHub(data).close()
    const refused = async (...args: string[]) => (await runTussock('export', ...args, '--data', data)).stderr
    expect(await refused('readings', '--set', 'best')).toContain('E_QUERY: --set')
    expect(await refused('readings', '--from', '2026-06-12')).toContain('E_QUERY: --from')
    expect(await refused('plants')).toContain('E_COMMAND')
  })

  test('quarantine shows reason and bytes, and as JSON all of them', async () => {
    const data = temporaryFolder()
    const small = new SmallHub(data)
    small.writer.commit(
      [
        {
          source: 'serial:x',
          board: null,
          arrivedMs: nineOClock,
          code: 'E_CHECKSUM',
          message: 'Wrong.',
          bytes: Buffer.from('a\u0000b'),
        },
      ],
      () => ({ value: null, uncertainty: null, flag: 2, calibrationId: null, why: null }),
    )
    small.close()
    expect((await runTussock('quarantine', '--data', data)).stdout).toMatch(
      /^#1 {2}2026-06-12T09:00:00\.000Z {2}E_CHECKSUM: Wrong\. .*\n {6}a·b\n$/,
    )
    const [row] = (await runTussock('quarantine', '--json', '--data', data)).stdout.trim().split('\n')
    expect(Buffer.from(JSON.parse(row!).bytes, 'base64').toString()).toBe('a\u0000b')
  })
})

describe('tussock start and replay', () => {
  test('what a hub records is replayed into another data folder with the same readings', async () => {
    const folder = temporaryFolder()
    const capture = join(folder, 'day.jsonl')
    const args = ['--rehearsal', '--speed', '20', '--for', '60', '--faults', 'garbage,repeat']
    const data = join(folder, 'rehearsed')
    const ended = await runTussock(
      'start',
      ...args,
      '--record',
      capture,
      '--data',
      data,
      '--port',
      '0',
      '--mqtt-port',
      '0',
    )
    expect(ended.code).toBe(0)
    const rehearsed = /^ {2}data {3}(.*)$/m.exec(ended.stdout)![1]!
    const again = join(folder, 'again')
    await runTussock('survey', 'save', '--to', join(folder, 'survey.json'), '--data', rehearsed)
    await runTussock('survey', 'load', join(folder, 'survey.json'), '--data', again)
    const replayed = await runTussock('replay', capture, '--data', again)
    expect(replayed.stdout).toMatch(
      /^Replayed \d{2,} messages: \d{3,} readings, \d+ repeats, \d+ in quarantine\.\n$/,
    )
    const csv = async (from: string) =>
      (await runTussock('export', 'readings', '--set', 'all', '--data', from)).stdout
    expect(await csv(again)).toBe(await csv(rehearsed))
    expect((await csv(again)).length).toBeGreaterThan(5000)
    writeFileSync(capture, 'not a capture\n')
    expect((await runTussock('replay', capture, '--data', again)).stderr).toContain('E_CAPTURE')
  })

  test('a rehearsal begins and ends from the page, in a folder of its own', async () => {
    const hub = await startHub()
    const before = hub.address
    await expect(hub.send('DELETE', '/api/rehearsal')).rejects.toThrow('E_REHEARSAL')
    await hub.send('POST', '/api/rehearsal', { seed: 3 })
    const askQuietly = () => hub.now().catch(() => null)
    await hub.until(askQuietly, (now) => now?.isRehearsal === true && now.tallies.readings > 0)
    expect(hub.address).toBe(before)
    await hub.send('DELETE', '/api/rehearsal')
    const after = await hub.until(askQuietly, (now) => now?.isRehearsal === false)
    expect(after).toMatchObject({ surveys: [], tallies: { readings: 0 } })
    await hub.stop()
  })

  test('misspelled commands and options are refused by name, with what to do', async () => {
    for (const args of [
      ['begin'],
      ['start', '--sped', '2'],
      ['start', '--speed', '2'],
      ['start', '--port', 'x'],
      ['explain', 'x'],
    ]) {
      const ended = await runTussock(...args)
      expect(ended).toMatchObject({
        code: 2,
        stdout: '',
        stderr: expect.stringMatching(/^E_COMMAND: .*\.\n$/s),
      })
    }
  })

  test('help lists every command, and each command has its own', async () => {
    const help = (await runTussock('--help')).stdout
    const names = [...help.matchAll(/^ {2}([a-z]+) {2,}/gm)].map(([, name]) => name!)
    expect(names).toEqual(expect.arrayContaining(['start', 'survey', 'export', 'compute', 'replay']))
    for (const name of names) expect((await runTussock(name, '--help')).stdout).toContain(`tussock ${name}`)
  })
})
