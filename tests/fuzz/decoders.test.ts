import { describe, expect, test } from 'vitest'
import { isRefusal } from '../../calibration/index.ts'
import { exportQuery } from '../../hub/contract/export-query.ts'
import { AddSpot } from '../../hub/contract/spot.ts'
import type { ColumnMap } from '../../hub/contract/survey.ts'
import { readFrame } from '../../hub/intake/read-frame.ts'
import { readSheet } from '../../hub/study/species/read-sheet.ts'
import { readSurveyFile } from '../../hub/survey/read-survey-file.ts'
import { checkTrailer, withTrailer } from '../../hub/wire/checksum.ts'
import { exampleSurvey, nineOClock } from '../support/example-survey.ts'
import { mutate, seeded } from './mutations.ts'
import { refuseWildNumbers } from './sheet-stores.ts'
import { HANGS_MS, readMany, tell } from './slowest.ts'

/** Inputs for each decoder; `TUSSOCK_FUZZ=1000000` for the long run. */
const INPUTS = Number(process.env['TUSSOCK_FUZZ'] ?? 4000)

const pack =
  '[{"bn":"sedge-1/","bt":1781254800,"n":"startup","v":7},{"n":"message","v":12},{"n":"ph","u":"mV","v":84.5}]'
const columns: ColumnMap = {
  separator: 'semicolon',
  decimal: 'comma',
  channels: [{ channel: 'ph', unit: 'mV' }, null, { channel: 'light', unit: 'count' }],
}

/** What a frame would store; every number of it must be one. */
function readBytes(bytes: Uint8Array, format: 'line' | 'pack' | 'columns', map?: ColumnMap): void {
  const board = format === 'line' ? null : 'sedge-1'
  for (const item of readFrame({ source: 'fuzz', arrivedMs: nineOClock, format, board, bytes }, () => map))
    if ('signals' in item)
      for (const { signal, timeMs } of item.signals)
        if (!Number.isFinite(signal) || !Number.isSafeInteger(timeMs))
          throw new Error(`stores ${signal} at ${timeMs}`)
}

const decoders: [name: string, seeds: string[], read: (bytes: Uint8Array) => unknown][] = [
  [
    'SenML packs',
    [pack, '[{"n":"sedge-1/x","vb":true},{"n":"sedge-1/y","s":4,"t":-3}]'],
    (bytes) => readBytes(bytes, 'pack'),
  ],
  [
    'lines with a checksum',
    [withTrailer(pack), withTrailer('512,23.1,880')],
    (bytes) => {
      readBytes(bytes, 'line')
      return checkTrailer(Buffer.from(bytes).toString('latin1'))
    },
  ],
  ['plain columns', ['512;23,1;880', '-5,5;;1e3'], (bytes) => readBytes(bytes, 'columns', columns)],
  ['columns without a map', ['512,23.1,880', '1 2 3'], (bytes) => readBytes(bytes, 'line')],
  [
    'survey files',
    [JSON.stringify(exampleSurvey())],
    (bytes) => {
      const { survey, faults } = readSurveyFile(parsed(bytes))
      if (survey === null && faults.length === 0) throw new Error('refused without a reason')
    },
  ],
  [
    'HTTP queries of the download',
    ['set=clean&survey=a&from=2026-06-12T09:30:00Z&method=shown'],
    (bytes) =>
      exportQuery.safeParse(Object.fromEntries(new URLSearchParams(Buffer.from(bytes).toString('latin1')))),
  ],
  [
    'spot readings',
    [
      JSON.stringify({
        id: 'capture-1',
        quadrat: 'Q1',
        probe: 'PH-1',
        sentAt: '2026-06-12T09:00:00Z',
        typed: [{ value: 5, at: '2026-06-12T09:00:00Z' }],
      }),
    ],
    (bytes) => {
      const read = AddSpot.safeParse(parsed(bytes))
      for (const { value } of read.data?.typed ?? [])
        if (!Number.isFinite(value)) throw new Error(`stores ${value}`)
    },
  ],
]

function parsed(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(Buffer.from(bytes).toString('utf8'))
  } catch {
    return undefined
  }
}

describe('no input makes a decoder throw, hang, or store what is no number', () => {
  test.each(decoders)(
    '%s',
    async (name, seeds, read) => {
      const chance = seeded(20_261_125)
      const slowest = await readMany(
        INPUTS,
        (place) => mutate(Buffer.from(seeds[place % seeds.length]!), chance),
        read,
      )
      tell(name, slowest)
      expect(slowest.ms).toBeLessThan(HANGS_MS)
    },
    3_600_000,
  )

  test('species sheets', async () => {
    const seeds = [
      'quadrat;grass;moss\nQ1;5,5;+\nQ 2;;0\n',
      'mark,species\n0,bramble/ivy\n0.5,bare\n',
      'trap,taxon,count,method\nP1,beetle,3,pitfall trap\n',
      'quadrat,ivy,moss\nQ1,7/25,0/25\nQ2,1/25,25/25\n',
    ]
    const chance = seeded(20_261_126)
    const slowest = await readMany(
      INPUTS / 4,
      (place) => mutate(Buffer.from(seeds[place % seeds.length]!), chance),
      readSpecies,
    )
    tell('species sheets', slowest)
    expect(slowest.ms).toBeLessThan(HANGS_MS)
  }, 3_600_000)
})

async function readSpecies(bytes: Uint8Array): Promise<void> {
  const sheet = await readSheet(bytes, 'class.csv')
  if (isRefusal(sheet) || 'sheetNames' in sheet) return
  refuseWildNumbers(sheet.grid)
}
