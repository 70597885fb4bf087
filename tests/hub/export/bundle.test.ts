import { createHash } from 'node:crypto'
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { strToU8, unzipSync, zipSync } from 'fflate'
import { describe, expect, test } from 'vitest'
import { isRefusal } from '../../../calibration/index.ts'
import type { BundleVerdict } from '../../../hub/export/bundle/verdict.ts'
import { verifyBundle } from '../../../hub/export/bundle/verify-bundle.ts'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'
import { SmallHub } from '../../support/small-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'
import { rowsOf } from './read-archive.ts'
import { exported, fillStudy, studySurvey } from './study-hub.ts'

type Files = Record<string, Uint8Array>

const made = new Map<string, Promise<Uint8Array>>()

/** The bundle of the study, made once for each way of asking. */
function bundle(wish: Record<string, string> = {}): Promise<Uint8Array> {
  const key = JSON.stringify(wish)
  const archive = made.get(key) ?? makeBundle(wish)
  made.set(key, archive)
  return archive
}

function makeBundle(wish: Record<string, string>): Promise<Uint8Array> {
  const folder = temporaryFolder()
  fillStudy(folder)
  return exported(folder, 'bundle', wish)
}

async function verdictOf(archive: Uint8Array, version = '0.1.0') {
  const path = join(temporaryFolder(), 'bundle.zip')
  writeFileSync(path, archive)
  return verifyBundle(path, version)
}

async function agreed(archive: Uint8Array, version?: string): Promise<BundleVerdict> {
  const verdict = await verdictOf(archive, version)
  if (isRefusal(verdict)) throw new Error(verdict.message)
  return verdict
}

/** Changes files of an archive, and its manifest with them when it is to be none the wiser. */
function changed(archive: Uint8Array, change: (files: Files) => void, isSigned: boolean): Uint8Array {
  const files: Files = { ...unzipSync(archive) }
  change(files)
  if (isSigned) {
    const manifest = JSON.parse(Buffer.from(files['manifest.json']!).toString())
    for (const line of manifest.files) {
      const bytes = files[line.path]!
      Object.assign(line, {
        bytes: bytes.length,
        sha256: createHash('sha256').update(bytes).digest('hex'),
      })
    }
    const lines = manifest.files.map(
      (line: { sha256: string; path: string }) => `${line.sha256}  ${line.path}\n`,
    )
    manifest.sha256OfAll = createHash('sha256').update(lines.join('')).digest('hex')
    files['manifest.json'] = strToU8(JSON.stringify(manifest))
  }
  return zipSync(files)
}

function replaced(files: Files, path: string, from: string, to: string): void {
  const text = Buffer.from(files[path]!).toString()
  expect(text).toContain(from)
  files[path] = strToU8(text.replace(from, to))
}

describe('a study bundle', () => {
  test('is worked out again to the same readings, flags, summaries, join, statistics and catches', async () => {
    const verdict = await agreed(await bundle({ hydrogenIons: 'yes', window: 'common' }))
    expect(verdict).toMatchObject({ isAgreed: true, faults: [], remarks: [], survey: 'example' })
    expect(verdict.agreed[0]).toMatch(/^12 files/)
    expect(verdict.agreed[1]).toBe('391 readings come to the same values and flags.')
    expect(verdict.agreed.slice(2).map((line) => line.split(':')[0])).toEqual([
      'results/summary.json',
      'results/join.json',
      'results/statistics.json',
      'results/catches.json',
    ])
  })

  test('has every signal with all its digits, every message with its bytes, and the sheets as they were', async () => {
    const files = unzipSync(await bundle())
    const rows = rowsOf(Buffer.from(files['readings-all.csv']!).toString())
    expect(rows).toHaveLength(391)
    expect(Number(rows[3]!['signal'])).toBe(12 + Math.sin(1 / 7))
    expect(rows[0]).toMatchObject({
      message: '1',
      place: '0',
      board: 'sedge-1',
      channel: 'temperature',
      source: 'test',
    })
    const [message] = Buffer.from(files['messages.jsonl']!).toString().split('\n')
    expect(JSON.parse(Buffer.from(JSON.parse(message!).bytes, 'base64').toString())[0]).toEqual({
      bn: 'sedge-1/',
      n: 'temperature',
      u: 'Cel',
      v: 12,
    })
    expect(Buffer.from(files['sheets/1-plants-of-12-June.csv']!).toString()).toContain('q 2;+;12,5%;80%')
    const survey = JSON.parse(Buffer.from(files['survey.json']!).toString())
    expect(survey).toEqual({ ...studySurvey(), spots: expect.any(Array) })
    expect(survey.spots).toHaveLength(3)
  })

  test('a changed byte is told with its file', async () => {
    const archive = changed(
      await bundle(),
      (files) => replaced(files, 'sheets/1-plants-of-12-June.csv', '35%', '36%'),
      false,
    )
    const { isAgreed, faults } = await agreed(archive)
    expect(isAgreed).toBe(false)
    expect(faults[0]).toMatchObject({ kind: 'file', where: 'sheets/1-plants-of-12-June.csv' })
    expect(faults[0]!.text).toContain('A byte of it was changed')
  })

  test('a byte flipped in the archive itself is told, wherever it lies in a packed file', async () => {
    const archive = Buffer.from(await bundle())
    const at = archive.indexOf('readings-all.csv') + 2000
    archive[at]! ^= 0x10
    const verdict = await agreed(archive)
    expect(verdict.isAgreed).toBe(false)
    expect(verdict.faults.map(({ where }) => where)).toContain('readings-all.csv')
  })

  test('a signal changed under a manifest that fits gives another value, which is named with the difference', async () => {
    const archive = changed(
      await bundle(),
      (files) =>
        replaced(
          files,
          'readings-all.csv',
          '1,2,sedge-1,wind,2026-06-12T09:00:00.000Z,0,Hz',
          '1,2,sedge-1,wind,2026-06-12T09:00:00.000Z,1,Hz',
        ),
      true,
    )
    const { faults, counts } = await agreed(archive)
    expect(counts.file).toBe(0)
    // U = 0.3 + 0.66 f: a cup that stood still is calm, 0; at 1 Hz it is 0.96 m/s
    expect(faults[0]).toMatchObject({ kind: 'reading', where: expect.stringContaining('sedge-1/wind') })
    expect(faults[0]!.text).toBe('Its value is 0, worked out again 0.96, a difference of 0.96.')
    expect(faults.map(({ where }) => where)).toContain('results/summary.json.summaries[Q1, wind_speed].mean')
  })

  test('a result changed under a manifest that fits is named', async () => {
    const archive = changed(
      await bundle(),
      (files) => replaced(files, 'results/summary.json', '"n": 120', '"n": 121'),
      true,
    )
    const { faults } = await agreed(archive)
    expect(faults).toHaveLength(1)
    expect(faults[0]).toMatchObject({
      kind: 'result',
      where: 'results/summary.json.summaries[Q1, soil_ph].n',
    })
    expect(faults[0]!.text).toBe('It is 121, worked out again 120, a difference of -1.')
  })

  test('a decision taken out under a manifest that fits gives other results', async () => {
    const archive = changed(
      await bundle(),
      (files) => replaced(files, 'survey.json', '"action": "exclude"', '"action": "accept"'),
      true,
    )
    const { counts } = await agreed(archive)
    expect([counts.reading, counts.result > 0]).toEqual([0, true])
  })

  test('a missing and a strange file are named', async () => {
    const archive = changed(
      await bundle(),
      (files) => {
        delete files['results/join.json']
        files['more.txt'] = strToU8('more')
      },
      false,
    )
    const { faults } = await agreed(archive)
    expect(faults.map(({ where, text }) => `${where}: ${text}`)).toEqual([
      'results/join.json: It is missing.',
      'more.txt: The manifest does not know it.',
    ])
  })

  test('without its readings or survey it says that it cannot be worked out again', async () => {
    for (const path of ['readings-all.csv', 'messages.jsonl', 'survey.json']) {
      const { faults, isAgreed } = await agreed(changed(await bundle(), (files) => delete files[path], false))
      expect([path, isAgreed, faults[0]!.where]).toEqual([path, false, path])
      expect(faults[1]!.text).toContain('It cannot be worked out again')
    }
  })

  test('another version is said, and is no fault in itself', async () => {
    const { remarks, isAgreed } = await agreed(await bundle(), '9.9.9')
    expect(isAgreed).toBe(true)
    expect(remarks).toEqual([
      'It was written by version 0.1.0, this is 9.9.9: a difference may come from that.',
    ])
  })

  test('while values were being worked out anew, the bundle says so', async () => {
    const folder = temporaryFolder()
    fillStudy(folder)
    const hub = new SmallHub(folder)
    const survey = studySurvey()
    survey.calibrations[1]!.recipe = { kind: 'digital-temperature', offsetCelsius: 1 }
    hub.keeper.save(survey, 'test')
    hub.close()
    const { remarks, isAgreed } = await agreed(await exported(folder, 'bundle'))
    expect(isAgreed).toBe(false)
    expect(remarks[0]).toContain('still working values or flags out anew')
  })

  test('holds the surveys that have a say in its values, and no others', async () => {
    const folder = temporaryFolder()
    fillStudy(folder)
    const hub = new SmallHub(folder)
    const { decisions: _decisions, traps: _traps, ...shared } = studySurvey()
    hub.keeper.save({ ...shared, id: 'neighbour', placements: [] }, 'test')
    hub.keeper.save(
      { ...exampleSurvey(), id: 'far', boards: [], probes: [], placements: [], calibrations: [] },
      'test',
    )
    hub.recompute()
    hub.review()
    hub.close()
    const archive = await exported(folder, 'bundle')
    const others = JSON.parse(Buffer.from(unzipSync(archive)['other-surveys.json']!).toString())
    expect(others.map(({ id }: { id: string }) => id)).toEqual(['neighbour'])
    expect((await agreed(archive)).isAgreed).toBe(true)
  })

  test('readings that were moved in time with their board’s clock agree', async () => {
    const folder = temporaryFolder()
    fillStudy(folder)
    const hub = new SmallHub(folder)
    const survey = studySurvey()
    survey.clockCorrections = [
      {
        id: 'c1',
        board: 'sedge-1',
        from: '2026-06-12T08:59:00Z',
        to: '2026-06-12T09:01:00Z',
        offsetSeconds: -90,
        reason: 'it was ahead',
        at: '2026-06-12T12:00:00Z',
      },
    ]
    hub.keeper.save(survey, 'test')
    while (hub.writer.reclockSome(hub.keeper.clockWork) !== null);
    hub.recompute()
    hub.review()
    hub.close()
    const archive = await exported(folder, 'bundle')
    expect(Buffer.from(unzipSync(archive)['readings-all.csv']!).toString()).toContain(
      '2026-06-12T08:58:30.000Z',
    )
    expect(await agreed(archive)).toMatchObject({ isAgreed: true })
  })

  test('of a survey without readings and sheets agrees too', async () => {
    const folder = temporaryFolder()
    const hub = new SmallHub(folder)
    hub.keeper.save(exampleSurvey(), 'test')
    hub.close()
    expect(await agreed(await exported(folder, 'bundle'))).toMatchObject({ isAgreed: true })
  })

  test('readings of the last seconds are left out, and the note says how many', async () => {
    const folder = temporaryFolder()
    fillStudy(folder)
    const hub = new SmallHub(folder)
    hub.send(nineOClock + 300_000, [{ n: 'sedge-1/temperature', u: 'Cel', v: 12 }])
    const archive = await exported(folder, 'bundle')
    hub.close()
    expect(Buffer.from(unzipSync(archive)['README.txt']!).toString()).toContain(
      '1 readings of the last seconds',
    )
    expect((await agreed(archive)).agreed[1]).toContain('391 readings')
  })
})

describe('a file that is no bundle', () => {
  const refused = async (archive: Uint8Array) => {
    const verdict = await verdictOf(archive)
    return isRefusal(verdict) ? verdict.code : 'verified'
  }

  test('is refused when it is not there, no ZIP archive, cut off, or an archive of something else', async () => {
    expect(await verifyBundle(join(temporaryFolder(), 'none.zip'), '0')).toMatchObject({
      code: 'E_BUNDLE_FILE',
    })
    const archive = await bundle()
    expect(await refused(strToU8('quadrat,value\r\n'))).toBe('E_BUNDLE_FILE')
    expect(await refused(new Uint8Array(0))).toBe('E_BUNDLE_FILE')
    expect(await refused(archive.subarray(0, archive.length - 40))).toBe('E_BUNDLE_FILE')
    expect(await refused(zipSync({ 'a.txt': strToU8('a') }))).toBe('E_BUNDLE_FORM')
    expect(
      await refused(
        changed(
          archive,
          (files) => replaced(files, 'manifest.json', '"tussockBundle": 1', '"tussockBundle": 2'),
          false,
        ),
      ),
    ).toBe('E_BUNDLE_FORM')
  })

  test.each(['../outside.txt', '/etc/outside', 'a/../../b', 'C:\\outside', 'a\\b', '.hidden', 'a//b', 'a/'])(
    'is refused when it would write to %s',
    async (path) => {
      expect(await refused(zipSync({ [path]: strToU8('x') }))).toBe('E_BUNDLE_UNSAFE')
    },
  )

  test('is refused before unpacking when it would unpack to far more than it is, or to very many files', async () => {
    const bomb = zipSync({ 'bomb.txt': new Uint8Array(20_000_000) }, { level: 9 })
    expect(bomb.length).toBeLessThan(100_000)
    expect(await refused(bomb)).toBe('E_BUNDLE_UNSAFE')
    const many = Object.fromEntries(Array.from({ length: 2001 }, (_, k) => [`f${k}`, new Uint8Array(0)]))
    expect(await refused(zipSync(many))).toBe('E_BUNDLE_UNSAFE')
  })

  test('that says less than it holds is not unpacked past what it says', async () => {
    const archive = Buffer.from(changed(await bundle(), () => undefined, false))
    // the size of README.txt in the directory: APPNOTE 4.3.12, four bytes at 24 of its entry
    const entry = archive.lastIndexOf('README.txt') - 46
    archive.writeUInt32LE(10, entry + 24)
    const { faults } = await agreed(archive)
    expect(faults[0]).toMatchObject({
      where: 'README.txt',
      text: 'It cannot be unpacked whole: it is longer than the archive says.',
    })
  })
})
