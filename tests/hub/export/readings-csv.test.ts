import { describe, expect, test } from 'vitest'
import { exportQuery } from '../../../hub/contract/export-query.ts'
import { cell, readingsCsv } from '../../../hub/export/readings-csv.ts'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'
import { SmallHub } from '../../support/small-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'

const heading =
  'time,survey,transect,distance_m,quadrat,quantity,value,unit,uncertainty,flag,probe,calibration,signal,signal_unit'

function exported(hub: SmallHub, query: Record<string, string> = {}): string[] {
  const text = [...readingsCsv(hub.reader, hub.keeper.timelines, exportQuery.parse(query))].join('')
  expect(text.endsWith('\r\n')).toBe(true)
  return text.slice(0, -2).split('\r\n')
}

function filledHub(): SmallHub {
  const hub = new SmallHub(temporaryFolder())
  hub.keeper.save(exampleSurvey(), 'test')
  hub.send(nineOClock, [
    { bn: 'sedge-1/', n: 'temperature', u: 'Cel', v: 12.5 },
    { n: 'wind', u: 'Hz', v: 2 },
    { n: 'battery', u: 'V', v: 3.9 },
  ])
  return hub
}

describe('readings.csv', () => {
  test('has the columns in their order, CR LF, RFC 3339 times with milliseconds, numbers that read back', () => {
    const hub = filledHub()
    const rows = exported(hub)
    expect(rows[0]).toBe(heading)
    expect(rows[1]).toMatch(
      /^2026-06-12T09:00:00\.000Z,example,T1,2,Q1,soil_temperature,12,Cel,[\d.]*,1,TEMP-1,temp-cal-1,12\.5,Cel$/,
    )
    expect(rows[2]).toMatch(/,wind_speed,1\.62,m\/s,[\d.]*,1,WIND-1,wind-cal-1,2,Hz$/)
    expect(rows).toHaveLength(3)
    hub.close()
  })
  test('asked for, three more columns tell unlike methods apart', () => {
    const hub = filledHub()
    const rows = exported(hub, { method: 'shown' })
    expect(rows[0]).toBe(`${heading},way,depth_cm,height_m`)
    expect(rows.slice(1).map((row) => row.split(',').slice(14))).toEqual([
      ['', '5', ''],
      ['', '', '1.5'],
    ])
    expect(exportQuery.safeParse({ from: '2026-06-12T10:00:00Z', to: '2026-06-12T10:00:00Z' }).success).toBe(
      false,
    )
    hub.close()
  })
  test('the set “all” adds what belongs to no probe, with empty cells for what is not known', () => {
    const hub = filledHub()
    expect(exported(hub, { set: 'all' })[3]).toBe('2026-06-12T09:00:00.000Z,,,,,,,,,2,,,3.9,V')
    hub.close()
  })
  test('clean leaves out what is suspect, failed, unplaced or uncalibrated', () => {
    const hub = filledHub()
    hub.send(nineOClock + 1000, [{ n: 'sedge-1/temperature', u: 'Cel', v: 45 }]) // suspect: above 40 °C
    hub.send(nineOClock + 2000, [{ n: 'sedge-1/temperature', u: 'Cel', v: -127 }]) // the sensor's fault code
    hub.send(nineOClock - 4_000_000, [{ n: 'sedge-1/temperature', u: 'Cel', v: 11 }]) // before it was placed
    hub.send(nineOClock - 8_000_000, [{ n: 'sedge-1/temperature', u: 'Cel', v: 11 }]) // before it was calibrated
    const times = (set: string) =>
      exported(hub, { set, quantity: 'soil_temperature' })
        .slice(1)
        .map((row) => row.slice(11, 19))
    expect(times('clean')).toEqual(['09:00:00'])
    expect(times('all').sort()).toEqual(['06:46:40', '07:53:20', '09:00:00', '09:00:01', '09:00:02'])
    hub.close()
  })
  test('filters by survey, quadrat, quantity, from and to (from counts, to does not)', () => {
    const hub = filledHub()
    hub.send(nineOClock + 1000, [{ n: 'sedge-1/temperature', u: 'Cel', v: 13 }])
    const count = (query: Record<string, string>) => exported(hub, query).length - 1
    expect(count({ quantity: 'soil_temperature' })).toBe(2)
    expect(count({ quadrat: 'Q2' })).toBe(0)
    expect(count({ survey: 'example' })).toBe(3)
    expect(count({ survey: 'other' })).toBe(0)
    expect(count({ quantity: 'soil_temperature', from: '2026-06-12T10:00:01+01:00' })).toBe(1)
    expect(count({ quantity: 'soil_temperature', to: '2026-06-12T09:00:01Z' })).toBe(1)
    expect(exportQuery.safeParse({ from: '2026-06-12T09:00:00' }).success).toBe(false)
    hub.close()
  })
  test('has every reading once, in time order, whatever part of them is sealed and however many there are', () => {
    const hub = new SmallHub(temporaryFolder())
    hub.keeper.save(exampleSurvey(), 'test')
    const n = 9000
    const packs = Array.from({ length: n }, (_, k) => [
      { n: 'sedge-1/temperature', u: 'Cel', v: (k % 400) / 16, t: -(n - k) },
    ])
    hub.send(nineOClock, ...packs.slice(0, 4321))
    hub.writer.seal()
    hub.send(nineOClock, ...packs.slice(4321))
    const times = exported(hub)
      .slice(1)
      .map((row) => row.slice(0, 24))
    const inSpan = n - (n - 3600) // the placement began an hour before
    expect(times).toHaveLength(inSpan)
    expect([...new Set(times)].sort()).toEqual(times)
    hub.close()
  })
  test('sealing in the middle of a download neither loses nor doubles a row', () => {
    const hub = new SmallHub(temporaryFolder())
    hub.keeper.save(exampleSurvey(), 'test')
    const packs = (from: number) =>
      Array.from({ length: 1500 }, (_, k) => [{ n: 'sedge-1/temperature', u: 'Cel', v: 10, t: -(from + k) }])
    hub.send(nineOClock, ...packs(0))
    hub.writer.seal()
    hub.send(nineOClock, ...packs(1500))
    const pieces = readingsCsv(hub.reader, hub.keeper.timelines, exportQuery.parse({}))
    let text = pieces.next().value as string
    text += pieces.next().value as string
    hub.writer.seal()
    hub.send(nineOClock, ...packs(3000)) // arrives too late for this download
    for (const piece of pieces) text += piece
    const times = text
      .trim()
      .split('\r\n')
      .slice(1)
      .map((row) => row.slice(0, 24))
    expect(times).toHaveLength(3000)
    expect(new Set(times).size).toBe(3000)
    hub.close()
  })
})

describe('cells (RFC 4180; OWASP on CSV injection)', () => {
  const cases: [string, string][] = [
    ['plain', 'plain'],
    ['a,b', '"a,b"'],
    ['say "x"', '"say ""x"""'],
    ['two\r\nlines', '"two\r\nlines"'],
    ['=1+1', "'=1+1"],
    ['+cmd', "'+cmd"],
    ['-x', "'-x"],
    ['@SUM(A1)', "'@SUM(A1)"],
    ['\tx', "'\tx"],
    ['\n=1', '"\'\n=1"'],
    ['＝1+1', "'＝1+1"],
    ['-0.5', '-0.5'],
    ['', ''],
  ]
  for (const [text, expected] of cases) test(JSON.stringify(text), () => expect(cell(text)).toBe(expected))
})
