import { join } from 'node:path'
import Database from 'better-sqlite3'
import { expect, test } from 'vitest'
import { appraiseWith } from '../../../hub/intake/appraise.ts'
import { readFrame } from '../../../hub/intake/read-frame.ts'
import { holdFolder } from '../../../hub/store/hold-folder.ts'
import { SqliteWriter } from '../../../hub/store/sqlite-writer.ts'
import type { Appraise } from '../../../hub/store/store.ts'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'
import { SmallHub } from '../../support/small-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'

const numbered = (message: number, ...records: object[]) => [
  { bn: 'sedge-1/', n: 'startup', v: 7 },
  { n: 'message', v: message },
  ...records,
]
const ph = (millivolt: number, seconds = 0) => ({ n: 'ph', u: 'mV', v: millivolt, t: seconds })
/** Takes a calibration away and gives it back: every value is worked out anew, and should be what it was. */
function workOutTwice(hub: SmallHub): void {
  hub.keeper.change('example', 'none', (survey) => ({
    ...survey,
    calibrations: survey.calibrations.slice(1),
  }))
  hub.recompute()
  hub.keeper.undo('example')
  hub.recompute()
}

const temperature = (celsius: number) => ({ n: 'temperature', u: 'Cel', v: celsius })

test('a reading is stored with signal, value, uncertainty and flag, and found again from its id', () => {
  const hub = new SmallHub(temporaryFolder())
  hub.keeper.save(exampleSurvey(), 'test')
  const [outcome] = hub.send(nineOClock, numbered(1, ph(84), temperature(15.5)))
  if (outcome?.kind !== 'kept') throw new Error('not kept')
  const [reading] = outcome.readings
  // story A01 of common practice: 84.0 mV at 15 °C by that calibration is pH 5.65
  expect(reading!.value).toBeCloseTo(5.65, 2)
  expect(reading!.uncertainty).toBeGreaterThan(0)
  expect(reading!.flag).toBe(1)
  expect(hub.reader.reading(reading!.id)).toEqual(reading)
  hub.close()
})

test('pH is compensated with the temperature of the same message, whichever record comes first', () => {
  const hub = new SmallHub(temporaryFolder())
  hub.keeper.save(exampleSurvey(), 'test')
  const outcomes = hub.send(
    nineOClock,
    numbered(1, ph(100), temperature(8.5)),
    numbered(2, temperature(8.5), ph(100)),
  )
  const values = outcomes.map((outcome) =>
    outcome.kind === 'kept' ? outcome.readings.find(({ signal }) => signal === 100)!.value : null,
  )
  // independent arithmetic: slope 170.3/3.04 mV/pH at 15 °C, scaled by (273.15 + 8)/(273.15 + 15); offset at pH 7 6 − 0.04·slope
  const slope = 170.3 / 3.04
  const offset = 6.0 - 0.04 * slope * -1
  const expected = 7 - (100 - offset) / (slope * (281.15 / 288.15))
  for (const value of values) expect(value).toBeCloseTo(expected, 6)
  hub.close()
})

test('in a backlog each pH is compensated with the temperature nearest to it in time, on arrival and when recomputed', () => {
  const hub = new SmallHub(temporaryFolder())
  hub.keeper.save(exampleSurvey(), 'test')
  const at = (seconds: number, millivolt: number, celsius: number) => [
    { n: 'ph', u: 'mV', v: millivolt, t: seconds },
    { n: 'temperature', u: 'Cel', v: celsius, t: seconds },
  ]
  const [outcome] = hub.send(nineOClock, numbered(1, ...at(-20, 100, 5.5), ...at(-10, 100, 35.5)))
  // the formula of the test above, at 5 °C and at 35 °C
  const slope = 170.3 / 3.04
  const offset = 6.0 + 0.04 * slope
  const ph = (celsius: number) => 7 - (100 - offset) / (slope * ((273.15 + celsius) / 288.15))
  const values = () => hub.reader.series(1, 0, 1e14, 10).mean
  expect(outcome?.kind).toBe('kept')
  expect(values()).toEqual([expect.closeTo(ph(5), 6), expect.closeTo(ph(35), 6)])
  const before = values()
  workOutTwice(hub)
  expect(values()).toEqual(before)
  hub.close()
})

test('a pH whose temperature did not come with it is suspect, and says why; probes that wait for each other end', () => {
  const hub = new SmallHub(temporaryFolder())
  const survey = exampleSurvey()
  survey.probes[1]!.temperatureChannel = 'ph'
  hub.keeper.save(survey, 'each by the other')
  hub.send(nineOClock, numbered(1, ph(84)))
  hub.send(nineOClock + 1000, numbered(2, ph(84), temperature(15.5)))
  const [alone] = hub.reader.series(1, 0, 1e14, 10).flag
  expect(alone).toBe(3)
  expect(hub.reader.reading(1024 * 1)!.why).toContain(
    'no temperature from “temperature” came in the same message and hour',
  )
  hub.close()
})

test('a temperature of another hour compensates nothing, on arrival and when recomputed', () => {
  const hub = new SmallHub(temporaryFolder())
  hub.keeper.save(exampleSurvey(), 'test')
  const [outcome] = hub.send(
    nineOClock + 8_000_000,
    numbered(1, ph(84, -3601), ph(84, -3599), { ...temperature(15.5), t: 0 }),
  )
  expect(outcome?.kind).toBe('kept')
  const flags = () => hub.reader.series(1, 0, 1e14, 10).flag
  expect(flags()).toEqual([3, 1])
  workOutTwice(hub)
  expect(flags()).toEqual([3, 1])
  hub.close()
})

test('the same message again is a repeat, in the same batch, later, and after sealing', () => {
  const hub = new SmallHub(temporaryFolder())
  const pack = numbered(5, ph(84, -3), temperature(12))
  expect(hub.send(nineOClock, pack, pack).map(({ kind }) => kind)).toEqual(['kept', 'repeat'])
  // sent again with its relative time computed afresh: the bytes differ, the signals do not
  const later = numbered(5, ph(84, -63), temperature(12))
  expect(hub.send(nineOClock + 60_000, later).map(({ kind }) => kind)).toEqual(['repeat'])
  hub.writer.seal()
  expect(hub.send(nineOClock + 120_000, later).map(({ kind }) => kind)).toEqual(['repeat'])
  expect(hub.reader.tallies()).toEqual({ readings: 2, messages: 1, repeats: 3, quarantined: 0 })
  hub.close()
})

test('the same numbers with other signals are no repeat: another board has taken the name', () => {
  const hub = new SmallHub(temporaryFolder())
  hub.send(nineOClock, numbered(5, ph(84)))
  expect(hub.send(nineOClock, numbered(5, ph(85)))).toMatchObject([
    { kind: 'quarantined', code: 'E_NAME_CLASH' },
  ])
  expect(hub.send(nineOClock, numbered(5))).toMatchObject([{ kind: 'quarantined', code: 'E_NAME_CLASH' }])
  expect(hub.reader.quarantine(1e9, 10)).toHaveLength(2)
  hub.close()
})

test('messages without numbers are each stored', () => {
  const hub = new SmallHub(temporaryFolder())
  hub.send(nineOClock, [{ n: 'a/x', v: 1 }], [{ n: 'a/x', v: 1 }])
  expect(hub.reader.tallies().readings).toBe(2)
  hub.close()
})

test('signals are never updated and readings never deleted, not even by SQL', () => {
  const folder = temporaryFolder()
  const hub = new SmallHub(folder)
  hub.send(nineOClock, numbered(1, ph(84)))
  const raw = new Database(join(folder, 'readings.sqlite'))
  expect(() => raw.exec('UPDATE inbox SET signal = 0')).toThrow(/never altered/)
  hub.writer.seal()
  for (const column of ['signal', 't_ms', 'id', 'channel'])
    expect(() => raw.exec(`UPDATE reading SET ${column} = 0`)).toThrow(/never altered/)
  expect(() => raw.exec('DELETE FROM reading')).toThrow(/never deleted/)
  raw.close()
  hub.close()
})

test('placing a board after it has spoken loses nothing: its signals get their values', () => {
  const hub = new SmallHub(temporaryFolder())
  hub.send(nineOClock, numbered(1, ph(84), temperature(15.5)))
  hub.send(nineOClock + 2000, numbered(2, ph(84), temperature(15.5)))
  expect(hub.reader.latest().map(({ value, flag }) => [value, flag])).toEqual([
    [null, 2],
    [null, 2],
  ])
  hub.keeper.save(exampleSurvey(), 'placed afterwards')
  hub.recompute()
  const values = hub.reader.latest().map(({ value }) => value)
  expect(values).toEqual([expect.closeTo(5.65, 2), expect.closeTo(15, 6)])
  hub.close()
})

test('recomputing in slices of any size gives what arrival would have given, and ends', () => {
  for (const rows of [1, 2, 3, 7, 1000]) {
    const late = new SmallHub(temporaryFolder())
    const early = new SmallHub(temporaryFolder())
    early.keeper.save(exampleSurvey(), 'before')
    for (const hub of [late, early])
      for (let message = 0; message < 8; message++)
        // two messages share each moment, so slices cut between readings of one time
        hub.send(
          nineOClock + 1000 * (message >> 1),
          numbered(message, ph(80 + message), temperature(10 + message)),
        )
    late.keeper.save(exampleSurvey(), 'after')
    late.recompute(rows)
    const readings = (hub: SmallHub) => [1, 2].map((channel) => hub.reader.series(channel, 0, 1e14, 100))
    expect(readings(late)).toEqual(readings(early))
    late.close()
    early.close()
  }
})

test('a calibration dated earlier recomputes from its date on, and withdrawing it gives the identical values back', () => {
  const hub = new SmallHub(temporaryFolder())
  const survey = exampleSurvey()
  hub.keeper.save(survey, 'test')
  for (let second = 0; second < 10; second++)
    hub.send(nineOClock + second * 1000, numbered(second, temperature(10 + second)))
  const series = () => hub.reader.series(1, 0, 1e14, 100).mean
  const before = series()
  const calibration = {
    id: 'temp-cal-2',
    probe: 'TEMP-1',
    validFrom: '2026-06-12T09:00:05Z',
    recipe: { kind: 'digital-temperature' as const, offsetCelsius: 1 },
  }
  hub.keeper.change('example', 'new', (kept) => ({
    ...kept,
    calibrations: [...kept.calibrations, calibration],
  }))
  hub.recompute()
  expect(series()).toEqual(before.map((value, second) => (second < 5 ? value : value! + 1.5)))
  expect(hub.keeper.undo('example')).toBe('new')
  hub.recompute()
  expect(series()).toEqual(before)
  hub.close()
})

test('a second hub on one data folder is refused until the first lets go', () => {
  const folder = temporaryFolder()
  const letGo = holdFolder(folder)
  expect(() => holdFolder(folder)).toThrow(expect.objectContaining({ code: 'E_DATA_LOCKED' }))
  letGo()
  holdFolder(folder)()
})

test('a database of another program, or of a newer Tussock, is left alone', () => {
  const other = temporaryFolder()
  const raw = new Database(join(other, 'readings.sqlite'))
  raw.exec('CREATE TABLE something (x)')
  raw.close()
  expect(() => new SqliteWriter(other)).toThrow(expect.objectContaining({ code: 'E_DATA_NOT_OURS' }))
  const newer = temporaryFolder()
  new SqliteWriter(newer).close()
  const later = new Database(join(newer, 'readings.sqlite'))
  later.pragma('user_version = 999')
  later.close()
  expect(() => new SqliteWriter(newer)).toThrow(expect.objectContaining({ code: 'E_DATA_NEWER' }))
})

test('the database says that it is in order, and that a commit is durable before it is acknowledged', () => {
  const folder = temporaryFolder()
  const hub = new SmallHub(folder)
  hub.send(nineOClock, numbered(1, ph(84)))
  const raw = new Database(join(folder, 'readings.sqlite'))
  expect(raw.pragma('integrity_check', { simple: true })).toBe('ok')
  expect(raw.pragma('journal_mode', { simple: true })).toBe('wal')
  raw.close()
  hub.close()
})

test('a batch that comes to nothing leaves no trace, and is stored once when it is tried again', () => {
  const hub = new SmallHub(temporaryFolder())
  hub.keeper.save(exampleSurvey(), 'test')
  hub.send(nineOClock, numbered(1, ph(84)))
  const batch = [2, 3].flatMap((message) =>
    readFrame(
      {
        source: 'test',
        arrivedMs: nineOClock + message * 1000,
        format: 'line',
        board: null,
        bytes: Buffer.from(JSON.stringify(numbered(message, ph(84 + message), temperature(15)))),
      },
      () => undefined,
    ),
  )
  let calls = 0
  const appraise = appraiseWith(hub.keeper.timelines)
  const breaking: Appraise = (...about) => {
    if (++calls === 3) throw new Error('broken off')
    return appraise(...about)
  }
  expect(() => hub.writer.commit(batch, breaking)).toThrow('broken off')
  expect(hub.reader.tallies()).toMatchObject({ readings: 1, messages: 1 })
  const kinds = [batch, batch].map((items) => hub.writer.commit(items, appraise).map(({ kind }) => kind))
  expect(kinds).toEqual([
    ['kept', 'kept'],
    ['repeat', 'repeat'],
  ])
  hub.writer.seal()
  expect(hub.reader.tallies()).toMatchObject({ readings: 5, messages: 3, quarantined: 0 })
  expect(hub.reader.lastMessageId()).toBe(3)
  hub.close()
})
