import { expect, test } from 'vitest'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import {
  addClockCorrection,
  clockShifts,
  removeClockCorrection,
} from '../../../hub/survey/clock-corrections.ts'
import { readSurveyFile } from '../../../hub/survey/read-survey-file.ts'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'
import { SmallHub } from '../../support/small-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'

const at = (seconds: number) => new Date(nineOClock + seconds * 1000).toISOString()
const wish = {
  board: 'sedge-1',
  from: at(0),
  to: at(600),
  offsetSeconds: 3600,
  reason: 'summer time was off',
}

const pack = (number: number, second: number) => [
  { bn: 'sedge-1/', n: 'startup', v: 1 },
  { n: 'message', v: number },
  { n: 'temperature', u: 'Cel', v: 12 + number / 100, t: nineOClock / 1000 + second },
]

function logged(): SmallHub {
  const hub = new SmallHub(temporaryFolder())
  hub.keeper.save(exampleSurvey(), 'begin')
  for (let number = 1; number <= 1200; number++) hub.send(nineOClock + number * 1000, pack(number, number))
  return hub
}

function timesOf(hub: SmallHub): number[] {
  const { id } = hub.reader.channels().find(({ name }) => name === 'temperature')!
  return hub.reader
    .readingsBetween(id, -8.64e15, 8.64e15, 5000)
    .map(({ timeMs, signal }) => (timeMs - nineOClock) / 1000 - Math.round((signal - 12) * 100))
}

function putRight(hub: SmallHub, change: (survey: SurveyFile) => SurveyFile): void {
  hub.keeper.change('example', 'clock', change)
  while (hub.writer.reclockSome(hub.keeper.clockWork) !== null);
  hub.recompute()
}

const added = (survey: SurveyFile) => addClockCorrection(survey, wish, nineOClock).survey

test('readings of the span move by the offset, those outside stay, and taking it away moves them back exactly', () => {
  const hub = logged()
  expect(new Set(timesOf(hub))).toEqual(new Set([0]))
  putRight(hub, added)
  const moved = timesOf(hub)
  expect(moved.filter((by) => by === 3600)).toHaveLength(599)
  expect(moved.filter((by) => by === 0)).toHaveLength(601)
  putRight(hub, (survey) => removeClockCorrection(survey, 'c1'))
  expect(new Set(timesOf(hub))).toEqual(new Set([0]))
  hub.close()
})

test('a reading that has moved is still found by its id, with the bytes it came in', () => {
  const hub = logged()
  const { id } = hub.reader.channels().find(({ name }) => name === 'temperature')!
  const [first] = hub.reader.readingsBetween(id, nineOClock + 100_000, nineOClock + 100_001, 2)
  putRight(hub, added)
  expect(hub.reader.reading(first!.id)).toMatchObject({
    timeMs: first!.timeMs + 3_600_000,
    signal: first!.signal,
  })
  hub.close()
})

test('what the board sends later is put right as well, and a repeat of what moved is recognised', () => {
  const hub = logged()
  putRight(hub, added)
  expect(hub.keeper.clockShift('sedge-1', nineOClock + 599_000)).toBe(3_600_000)
  expect(hub.keeper.clockShift('sedge-1', nineOClock + 600_000)).toBe(0)
  expect(hub.keeper.clockShift('sedge-2', nineOClock + 1000)).toBe(0)
  expect(hub.send(nineOClock + 2_000_000, pack(7, 7))).toEqual([expect.objectContaining({ kind: 'repeat' })])
  hub.close()
})

test('a hub that ends half way goes on where it was', () => {
  const folder = temporaryFolder()
  const first = new SmallHub(folder)
  first.keeper.save(exampleSurvey(), 'begin')
  for (let number = 1; number <= 1200; number++) first.send(nineOClock + number * 1000, pack(number, number))
  first.keeper.change('example', 'clock', added)
  expect(first.writer.reclockSome(first.keeper.clockWork)).toMatchObject({ isLast: false })
  first.close()
  const second = new SmallHub(folder)
  while (second.writer.reclockSome(second.keeper.clockWork) !== null);
  expect(timesOf(second).filter((by) => by === 3600)).toHaveLength(599)
  second.close()
})

const withSecondCalibration = (survey: SurveyFile, fromSeconds: number): SurveyFile => ({
  ...survey,
  calibrations: [
    ...survey.calibrations,
    {
      id: 'temp-cal-2',
      probe: 'TEMP-1',
      validFrom: at(fromSeconds),
      recipe: { kind: 'digital-temperature', offsetCelsius: -0.8 },
    },
  ],
})
const anHourBack = (survey: SurveyFile) =>
  addClockCorrection(survey, { ...wish, offsetSeconds: -3600 }, nineOClock).survey

test('what a hub had moved before it ended half way gets the values of its new time too', () => {
  const folder = temporaryFolder()
  const first = new SmallHub(folder)
  first.keeper.save(withSecondCalibration(exampleSurvey(), -1800), 'begin')
  for (let number = 1; number <= 1200; number++) first.send(nineOClock + number * 1000, pack(number, number))
  first.keeper.change('example', 'clock', anHourBack)
  expect(first.writer.reclockSome(first.keeper.clockWork)).toMatchObject({ isLast: false })
  first.close()
  const second = new SmallHub(folder)
  while (second.writer.reclockSome(second.keeper.clockWork) !== null);
  second.recompute()
  expect(offsetsBefore(second, -1800)).toEqual(new Set([-0.5]))
  second.close()
})

test('a correction that is changed while it is worked in leaves no value of the time before', () => {
  const hub = logged()
  hub.keeper.change('example', 'second calibration', (survey) => withSecondCalibration(survey, -1800))
  hub.recompute()
  hub.keeper.change('example', 'clock', anHourBack)
  expect(hub.writer.reclockSome(hub.keeper.clockWork)).toMatchObject({ isLast: false })
  putRight(
    hub,
    (survey) => addClockCorrection(survey, { ...wish, from: at(600), to: at(610) }, nineOClock).survey,
  )
  expect(offsetsBefore(hub, -1800)).toEqual(new Set([-0.5]))
  hub.close()
})

/** Value less signal of the readings before a second, °C. */
function offsetsBefore(hub: SmallHub, second: number): Set<number> {
  const { id } = hub.reader.channels().find(({ name }) => name === 'temperature')!
  const rows = hub.reader.readingsBetween(id, -8.64e15, nineOClock + second * 1000, 5000)
  expect(rows.length).toBeGreaterThan(500)
  return new Set(rows.map(({ value, signal }) => Math.round((value! - signal) * 1000) / 1000))
}

test('a calibration that began meanwhile is taken by the new time', () => {
  const hub = logged()
  hub.keeper.save(withSecondCalibration(exampleSurvey(), 1800), 'second calibration')
  putRight(hub, added)
  const { id } = hub.reader.channels().find(({ name }) => name === 'temperature')!
  const [moved] = hub.reader.readingsBetween(id, nineOClock + 3_700_000, nineOClock + 3_700_001, 2)
  // 12 + 100/100 °C less the offset of the calibration that was valid at the true time
  expect(moved!.value).toBeCloseTo(13 - 0.8, 10)
  hub.close()
})

test('corrections of one board may not overlap, and must be of a board that is known', () => {
  const survey = exampleSurvey()
  const faultsOf = (list: object[]) =>
    readSurveyFile({
      ...survey,
      clockCorrections: list.map((each, index) => ({ ...wish, id: `c${index}`, at: at(0), ...each })),
    }).faults.map(({ path }) => path)
  expect(faultsOf([{}])).toEqual([])
  expect(faultsOf([{}, { from: at(500), to: at(700) }])).toEqual(['clockCorrections[1]'])
  expect(faultsOf([{ board: 'nobody' }])).toEqual(['clockCorrections[0].board'])
  expect(faultsOf([{ to: at(0) }])).toEqual(['clockCorrections[0].to'])
})

test('without corrections nothing is moved', () => {
  expect(clockShifts([exampleSurvey()])('sedge-1', nineOClock)).toBe(0)
})

// the other side of the comparison: a board whose clock was right from the beginning
test('a pH moved in time is worked out with the temperature as it is after the move, whichever channel came first', () => {
  const survey = withSecondCalibration(exampleSurvey(), 1800)
  const sent = (clockBehindSeconds: number) => {
    const hub = new SmallHub(temporaryFolder())
    hub.keeper.save(survey, 'begin')
    for (let number = 1; number <= 20; number++)
      hub.send(nineOClock + (3600 + number) * 1000, [
        { bn: 'sedge-1/', n: 'startup', v: 1 },
        { n: 'message', v: number },
        { n: 'ph', u: 'mV', v: 120, t: nineOClock / 1000 + 3600 + number - clockBehindSeconds },
        { n: 'temperature', u: 'Cel', v: 15, t: nineOClock / 1000 + 3600 + number - clockBehindSeconds },
      ])
    return hub
  }
  const valuesOf = (hub: SmallHub) =>
    hub.reader.channels().map(({ id, name }) => ({
      name,
      values: hub.reader
        .readingsBetween(id, -8.64e15, 8.64e15, 100)
        .map(({ timeMs, value }) => [timeMs, value]),
    }))

  const late = sent(3600)
  const before = valuesOf(late)
  expect(before.map(({ name }) => name)).toEqual(['ph', 'temperature'])
  putRight(late, added)
  const early = sent(0)
  early.writer.seal()
  expect(valuesOf(late)).toEqual(valuesOf(early))
  expect(valuesOf(late)[0]!.values[0]![1]).not.toBe(before[0]!.values[0]![1])
  late.close()
  early.close()
})
