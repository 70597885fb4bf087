import { describe, expect, test } from 'vitest'
import { exportQuery } from '../../../hub/contract/export-query.ts'
import { readingsCsv } from '../../../hub/export/readings-csv.ts'
import { exampleSurvey } from '../../support/example-survey.ts'
import { SmallHub } from '../../support/small-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'

const all = {
  channel: 1,
  fromMs: -8.64e15,
  toMs: 8.64e15,
  rows: 'all',
  acceptSuspect: false,
  withReason: false,
  reason: null,
  reasonText: null,
  afterTime: ',',
  unit: ',',
  probe: '',
  signalUnit: '',
  withDrift: false,
  drift: null,
} as const

/** RFC 3339 as ECMA-262's Date writes it. */
const rfc3339 = (ms: number) => new Date(ms).toISOString()
const midnight = Date.UTC(2026, 5, 13)

/** Readings on both sides of two midnights, some at one millisecond, out of order; the last of them not yet sealed. */
function filled() {
  const hub = new SmallHub(temporaryFolder())
  hub.keeper.save(exampleSurvey(), 'test')
  const times = [-1, 0, 0, 0, 1, 999, -86_400_000, 86_399_999, 86_400_000, 61_001, -1000].map(
    (ms) => midnight + ms,
  )
  const unsealed = [-500, 0, 2, 90_000_000].map((ms) => midnight + ms)
  const send = (ms: number) => void hub.send(ms, [{ n: 'sedge-1/temperature', u: 'Cel', v: 12.5 }])
  times.forEach(send)
  hub.writer.seal()
  unsealed.forEach(send)
  return { hub, times: [...times, ...unsealed].sort((a, b) => a - b) }
}

const timesOf = (csv: string) =>
  csv
    .split('\r\n')
    .slice(0, -1)
    .map((line) => line.split(',')[0])

describe('lines of CSV', () => {
  test.each([1, 2, 3, 5, 2000])('hold each reading once, in order, in slices of %i', (rows) => {
    const { hub, times } = filled()
    const slices = hub.reader.csvSlices()
    expect(timesOf([...slices.of({ ...all }, rows)].join(''))).toEqual(times.map(rfc3339))
    slices.end()
    hub.close()
  })

  test('hold what was there when the download began, whatever is sealed or arrives meanwhile', () => {
    const { hub, times } = filled()
    const slices = hub.reader.csvSlices()
    const lines = slices.of({ ...all }, 2)
    const first = lines.next().value as string
    hub.writer.seal()
    hub.send(midnight + 3, [{ n: 'sedge-1/temperature', u: 'Cel', v: 13 }])
    expect(timesOf(first + [...lines].join(''))).toEqual(times.map(rfc3339))
    slices.end()
    hub.close()
  })

  test('end where the span ends', () => {
    const { hub, times } = filled()
    const slices = hub.reader.csvSlices()
    const within = { fromMs: midnight, toMs: midnight + 1000 }
    expect(timesOf([...slices.of({ ...all, ...within }, 2)].join(''))).toEqual(
      times.filter((ms) => ms >= within.fromMs && ms < within.toMs).map(rfc3339),
    )
    slices.end()
    hub.close()
  })

  test('leave a cell empty where there is no number', () => {
    const hub = new SmallHub(temporaryFolder())
    hub.keeper.save(exampleSurvey(), 'test')
    hub.send(midnight, [{ n: 'sedge-1/unknown', u: 'count', v: 7 }])
    const csv = [...readingsCsv(hub.reader, hub.keeper.timelines, exportQuery.parse({ set: 'all' }))].join('')
    expect(csv.split('\r\n')[1]).toBe(`${rfc3339(midnight)},,,,,,,,,2,,,7,count`)
    hub.close()
  })
})
