import { readFileSync, writeFileSync } from 'node:fs'
import { open } from 'node:fs/promises'
import { join } from 'node:path'
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate'
import { describe, expect, test } from 'vitest'
import { isRefusal } from '../../calibration/index.ts'
import { readAccess, writeAccess } from '../../hub/access/access-file.ts'
import { BoardKeys } from '../../hub/access/board-keys.ts'
import { Door } from '../../hub/access/door.ts'
import { isOwnHost } from '../../hub/access/host-names.ts'
import { roleNeeded } from '../../hub/access/may.ts'
import { isSecret, keepSecret } from '../../hub/access/passphrase.ts'
import { HubError } from '../../hub/errors.ts'
import { readZipDirectory } from '../../hub/export/bundle/zip-directory.ts'
import { replayCapture } from '../../hub/sources/capture.ts'
import { PacketCeiling } from '../../hub/sources/packet-ceiling.ts'
import { readTopic } from '../../hub/sources/topic.ts'
import { readSheet } from '../../hub/study/species/read-sheet.ts'
import { nineOClock } from '../support/example-survey.ts'
import { connectPacket, publishPacket } from '../support/mqtt-packets.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'
import { pick } from './from-schema.ts'
import { mutate, seeded } from './mutations.ts'
import { refuseWildNumbers } from './sheet-stores.ts'
import { HANGS_MS, readMany, tell } from './slowest.ts'

/** Inputs for each decoder; `TUSSOCK_FUZZ=1000000` for the long run. */
const INPUTS = Number(process.env['TUSSOCK_FUZZ'] ?? 4000)
/** A workbook is unpacked and its parts are read first, in tens of milliseconds on a machine that is not busy. */
const WORKBOOK_MS = 1000
const BOMB_MS = 10_000

const reference = (name: string) =>
  new Uint8Array(readFileSync(new URL(`../reference/${name}`, import.meta.url)))
const workbooks = ['species-two-headings.xlsx', 'species-two-headings.ods', 'species-two-sheets.xlsx'].map(
  reference,
)
const parts = workbooks.map((bytes) => unzipSync(bytes))

async function readWorkbook(bytes: Uint8Array): Promise<void> {
  const first = await readSheet(bytes, 'class')
  const sheet =
    !isRefusal(first) && 'sheetNames' in first ? await readSheet(bytes, 'class', first.sheetNames[0]) : first
  if (isRefusal(sheet) || 'sheetNames' in sheet) return
  refuseWildNumbers(sheet.grid)
}

/** A workbook one of whose parts was changed, packed again as if nothing had happened. */
function partChanged(place: number, chance: () => number): Uint8Array {
  const files = { ...parts[place % parts.length]! }
  const name = pick(
    Object.keys(files).filter((each) => /sheet|content|styles|shared|workbook/.test(each)),
    chance,
  )
  files[name] = new Uint8Array(mutate(files[name]!, chance))
  return zipSync(files, { level: 0 })
}

describe('files of strangers', () => {
  test('workbooks with bytes changed, outside and inside their parts', async () => {
    const chance = seeded(20_261_201)
    const slowest = await readMany(
      INPUTS / 16,
      (place) =>
        place % 2 === 0
          ? new Uint8Array(mutate(workbooks[(place / 2) % 3]!, chance))
          : partChanged((place - 1) / 2, chance),
      readWorkbook,
    )
    tell('workbooks', slowest)
    expect(slowest.ms).toBeLessThan(WORKBOOK_MS)
  }, 3_600_000)

  const [xlsx, ods] = [parts[0]!, parts[1]!]
  const sheet = Object.keys(xlsx).find((name) => name.endsWith('sheet1.xml'))!
  const xlsxWith = (before: string, more: string) =>
    zipSync({ ...xlsx, [sheet]: strToU8(strFromU8(xlsx[sheet]!).replace(before, `${more}${before}`)) })
  const odsWith = (more: string) =>
    zipSync({
      ...ods,
      'content.xml': strToU8(
        strFromU8(ods['content.xml']!).replace('</table:table>', `${more}</table:table>`),
      ),
    })
  const row = (cells: string, repeated = 1) =>
    `<table:table-row table:number-rows-repeated="${repeated}">${cells}</table:table-row>`
  const one = '<table:table-cell office:value-type="float" office:value="1"/>'
  const laughs = ['a', 'b', 'c', 'd', 'e', 'f', 'g']
    .map((name, at, all) => `<!ENTITY ${name} "${at === 0 ? 'ha' : `&${all[at - 1]};`.repeat(10)}">`)
    .join('')

  test.each([
    [
      'a cell in the farthest corner',
      xlsxWith('</sheetData>', '<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>'),
    ],
    [
      'a cell past every corner',
      xlsxWith('</sheetData>', '<row r="999999999"><c r="ZZZZZZ999999999"><v>1</v></c></row>'),
    ],
    [
      'many cells far to the right',
      xlsxWith(
        '</sheetData>',
        Array.from(
          { length: 500 },
          (_, k) => `<row r="${k + 100}"><c r="XFD${k + 100}"><v>1</v></c></row>`,
        ).join(''),
      ),
    ],
    [
      'all cells merged',
      xlsxWith('</worksheet>', '<mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells>'),
    ],
    ['elements in elements', xlsxWith('</sheetData>', '<a>'.repeat(100_000) + '</a>'.repeat(100_000))],
    ['elements that never end', xlsxWith('</sheetData>', '<a '.repeat(100_000))],
    [
      'entities of entities',
      zipSync({
        ...xlsx,
        [sheet]: strToU8(
          `<!DOCTYPE l [${laughs}]>${strFromU8(xlsx[sheet]!).replace(
            '</sheetData>',
            '<row r="50"><c r="A50" t="inlineStr"><is><t>&g;&g;</t></is></c></row></sheetData>',
          )}`,
        ),
      }),
    ],
    ['a row repeated two thousand million times', odsWith(row(one, 2_000_000_000))],
    [
      'a column repeated as often',
      odsWith(
        row(
          `<table:table-cell table:number-columns-repeated="2000000000" office:value-type="float" office:value="1"/>`,
        ),
      ),
    ],
    ['a value below a million blank rows', odsWith(row('<table:table-cell/>', 1_000_000) + row(one))],
    [
      'spaces without number',
      odsWith(
        row(
          '<table:table-cell office:value-type="string"><text:p>a<text:s text:c="2000000000"/>b</text:p></table:table-cell>',
        ),
      ),
    ],
    ['cells that never end', odsWith('<table:table-cell "'.repeat(50_000))],
    [
      'a text of megabytes',
      odsWith(
        row(
          `<table:table-cell office:value-type="string"><text:p>${'x'.repeat(20_000_000)}</text:p></table:table-cell>`,
        ),
      ),
    ],
    [
      'hundreds of names of thousands of letters, all alike',
      strToU8(
        `quadrat,${Array.from({ length: 300 }, (_, k) => `${'moss '.repeat(600)}${k}`).join(',')}\nQ1${',1'.repeat(300)}\n`,
      ),
    ],
  ])('a table with %s is read or refused in bounded time', async (_what, bytes) => {
    const beganMs = performance.now()
    await readWorkbook(bytes)
    expect(performance.now() - beganMs).toBeLessThan(BOMB_MS)
  })

  test('the directory of an archive', async () => {
    const file = join(temporaryFolder(), 'bundle.zip')
    const archive = zipSync({
      'manifest.json': strToU8('{}'),
      'data/readings.csv': strToU8('a,b\r\n1,2\r\n'),
    })
    const chance = seeded(20_261_202)
    const slowest = await readMany(
      INPUTS / 4,
      () => mutate(archive, chance),
      async (bytes) => {
        writeFileSync(file, bytes)
        const opened = await open(file)
        try {
          const entries = await readZipDirectory(opened)
          for (const { path } of isRefusal(entries) ? [] : entries)
            if (/\.\.|^\/|\\|\0|:/.test(path)) throw new Error(`lets through ${path}`)
        } finally {
          await opened.close()
        }
      },
    )
    tell('archive directories', slowest)
    expect(slowest.ms).toBeLessThan(HANGS_MS)
  }, 3_600_000)

  test('capture files', async () => {
    const file = join(temporaryFolder(), 'class.capture')
    const line = (format: string, bytes: string) =>
      JSON.stringify({
        at: '2026-06-12T09:00:00.123Z',
        source: 'serial:/dev/ttyUSB0',
        format,
        board: null,
        bytes: Buffer.from(bytes).toString('base64'),
      })
    const capture = Buffer.from(
      ['{"tussockCapture":1}', line('line', '512,23.1'), line('pack', '[{"n":"a/b","v":1}]'), ''].join('\n'),
    )
    const chance = seeded(20_261_203)
    const slowest = await readMany(
      INPUTS / 4,
      () => mutate(capture, chance),
      async (bytes) => {
        writeFileSync(file, bytes)
        const replayed = replayCapture(file, ({ arrivedMs, bytes: got, fault }, settled) => {
          if (!Number.isFinite(arrivedMs) || !(got instanceof Uint8Array))
            throw new Error(`took ${arrivedMs}`)
          if (fault !== undefined && typeof fault.message !== 'string')
            throw new Error('took a fault without words')
          settled?.(null, () => [])
        })
        await replayed.catch((error: unknown) => {
          if (!(error instanceof HubError) || error.code !== 'E_CAPTURE') throw error
        })
      },
    )
    tell('capture files', slowest)
    expect(slowest.ms).toBeLessThan(HANGS_MS)
  }, 3_600_000)
})

describe('what strangers say of themselves', () => {
  test('keys, cookies, host names, paths and topics', async () => {
    const keys = new BoardKeys({ all: () => [], set: () => {}, remove: () => false }, false)
    const key = keys.make('sedge-1', 0)
    const bare = (text: string) => text.trim().toLowerCase().replaceAll('-', '')
    const door = new Door({ teacher: null, classCode: await keepSecret('moss7') })
    const seeds = [
      key,
      'sedge-1',
      'tussock_session=abcdefghijklmnop',
      'tussock.local:4780',
      '/api/surveys/example/spots/x-1/amend',
      'tussock/sedge-1/pack',
    ]
    const chance = seeded(20_261_204)
    const slowest = await readMany(
      INPUTS,
      (place) => mutate(Buffer.from(seeds[place % seeds.length]!), chance),
      (bytes) => {
        const text = Buffer.from(bytes).toString('utf8')
        if (keys.admit('sedge-1', text) !== false && bare(text) !== bare(key))
          throw new Error('opens to another key')
        if (keys.admit(text, key) !== false && text !== 'sedge-1') throw new Error('opens to another name')
        if (door.roleOf('192.0.2.9', text) !== 'stranger') throw new Error('takes an invented cookie')
        if (isOwnHost(text, ['192.0.2.7']) && /[^\w.:[\]-]/.test(text)) throw new Error(`is called ${text}`)
        const needed = roleNeeded('POST', text)
        if (needed === 'class' && !/^\/api\/(plan|surveys)\//.test(text))
          throw new Error('lets the class change')
        const reading = readTopic(text, bytes, 'fuzz', nineOClock)
        if (reading.kind === 'link' && !/^[A-Za-z0-9._-]+$/.test(reading.board))
          throw new Error('a link of no board')
      },
    )
    tell('keys, cookies, hosts, paths, topics', slowest)
    expect(slowest.ms).toBeLessThan(HANGS_MS)
  }, 3_600_000)

  test('the headers of MQTT packets, cut anywhere, are followed alike', async () => {
    const seed = Buffer.concat([
      connectPacket('sedge-1'),
      publishPacket('tussock/sedge-1/pack', Buffer.alloc(300)),
    ])
    const chance = seeded(20_261_205)
    const slowest = await readMany(
      INPUTS,
      () => mutate(seed, chance),
      (bytes) => {
        const whole = new PacketCeiling(200, 1000).admits(bytes)
        const cut = Math.floor(bytes.length / 3)
        const pieces = new PacketCeiling(200, 1000)
        const both = pieces.admits(bytes.subarray(0, cut)) && pieces.admits(bytes.subarray(cut))
        if (whole !== both) throw new Error('judged otherwise in pieces')
      },
    )
    tell('MQTT headers', slowest)
    expect(slowest.ms).toBeLessThan(HANGS_MS)
  }, 3_600_000)

  test('passphrases of any letters are kept and known again, and no other', async () => {
    for (const secret of [
      '\uD800 lone',
      '💧'.repeat(100),
      'a\0b',
      '__proto__',
      'ﬁne',
      '‮rtl',
      'x'.repeat(10_000),
    ]) {
      const kept = await keepSecret(secret)
      expect(await isSecret(secret, kept)).toBe(true)
      expect(await isSecret(`${secret}.`, kept)).toBe(false)
    }
  })

  test('an access file with bytes changed is read as it says or refused, never taken for none', async () => {
    const folder = temporaryFolder()
    const secret = { salt: 'c2FsdA==', hash: 'aGFzaA==', cost: 32768 }
    writeAccess(folder, { teacher: secret, classCode: null })
    const file = join(folder, 'access.json')
    const whole = readFileSync(file)
    const chance = seeded(20_261_206)
    await readMany(
      INPUTS / 4,
      () => mutate(whole, chance),
      (bytes) => {
        writeFileSync(file, bytes)
        try {
          if (readAccess(folder).teacher === null) throw new Error('opens without a passphrase')
        } catch (error) {
          if (!(error instanceof HubError) || error.code !== 'E_ACCESS_FILE') throw error
        }
      },
    )
  }, 3_600_000)
})
