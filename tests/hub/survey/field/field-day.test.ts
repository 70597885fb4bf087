import { expect, test } from 'vitest'
import type { Completeness } from '../../../../hub/contract/field.ts'
import { temporaryFolder } from '../../../support/temporary-folder.ts'
import { type DayEvents, eventsOf } from './field-day-events.ts'
import { FieldDayHub } from './field-day-hub.ts'
import { happeningsOf, play, putClockRight, sayWhereItWas } from './field-day-replay.ts'
import { BEGINS_MS, ENDS_MS, fieldDaySurvey, SURVEY } from './field-day-survey.ts'
import { asTold, QUICK_MS, withNearTimes } from './field-day-told.ts'
import { trueMatrix } from './field-day-truth.ts'

// expected values are counted from the events of the day itself, in field-day-truth.ts, without any code of the hub

function opened(folder = temporaryFolder()): FieldDayHub {
  const hub = new FieldDayHub(folder, BEGINS_MS)
  hub.hub.keeper.save(fieldDaySurvey(), 'before the day')
  return hub
}

const matrixOf = (hub: FieldDayHub) => hub.ask<Completeness>(`/api/surveys/${SURVEY}/completeness`)

/** @param isToldYet  whether a cell is to be compared; all of them once everything is put right */
async function expectTruth(
  hub: FieldDayHub,
  day: DayEvents,
  nowMs: number,
  isToldYet = (_cell: string) => true,
): Promise<void> {
  hub.nowMs = nowMs
  const { cells } = await matrixOf(hub)
  const truth = trueMatrix(day, nowMs)
  const told = cells.map((cell, place) => withNearTimes(asTold(cell), truth[place]!))
  expect(told.filter(({ cell }) => isToldYet(cell))).toEqual(truth.filter(({ cell }) => isToldYet(cell)))
}

/** Every clock is right by now, and every probe was calibrated before the day. */
async function expectTrusted(hub: FieldDayHub): Promise<void> {
  const { cells } = await matrixOf(hub)
  expect(
    cells.filter(({ isClockKnown, isCalibrated }) => isClockKnown === false || isCalibrated === false),
  ).toEqual([])
}

/** Every message that came is stored once, with its signals, at its true time; what boards were answered is just that. */
function expectStoredOnce({ hub }: FieldDayHub, day: DayEvents, replies: readonly string[]): void {
  const { reader } = hub
  const came = day.messages.filter(({ arrivals }) => arrivals.length > 0)
  const numbered = new Map(came.map((each) => [`${each.board} ${each.startup} ${each.number}`, each]))
  const stored: string[] = []
  const wrong: unknown[] = []
  const readings = new Map<number, { timeMs: number; signal: number }[]>()
  for (const { id } of reader.channels())
    for (const row of reader.readingsBetween(id, -8.64e15, 8.64e15, 1e6)) {
      const ofMessage = readings.get(Math.floor(row.id / 1024))
      if (ofMessage) ofMessage.push(row)
      else readings.set(Math.floor(row.id / 1024), [row])
    }
  for (let id = 1; id <= reader.lastMessageId(); id++) {
    const message = reader.message(id)!
    if (message.board === 'by-hand') continue
    const key = `${message.board} ${message.startup} ${message.number}`
    stored.push(key)
    const truth = numbered.get(key)
    const rows = readings.get(id) ?? []
    const isRight =
      truth !== undefined &&
      rows.length === truth.signals.length &&
      truth.signals.every(({ signal }) => rows.some((row) => row.signal === signal)) &&
      rows.every(({ timeMs }) => Math.abs(timeMs - truth.takenMs) <= (truth.slowMs === null ? QUICK_MS : 0))
    if (!isRight) wrong.push({ key, truth, rows })
  }
  expect(wrong).toEqual([])
  expect(stored.toSorted()).toEqual([...numbered.keys()].toSorted())
  expect(replies.toSorted()).toEqual(
    came
      .flatMap(({ startup, number, arrivals }) => arrivals.map(() => `kept ${startup} ${number}`))
      .toSorted(),
  )
  const sent = came.reduce((sum, { arrivals }) => sum + arrivals.length, 0)
  expect(reader.tallies()).toEqual({
    messages: came.length + day.typed.length,
    readings: came.reduce((sum, { signals }) => sum + signals.length, 0) + day.typed.length,
    repeats: sent - came.length,
    quarantined: 0,
  })
}

/** The deep thermometer’s move and the slow clock of peg-8 come to light only afterwards. */
const isRightAllAlong = (cell: string) => !/"depthCentimetres":20|^Q8 soil_temperature/.test(cell)

const DAYS = [11, 1906, 40_321]

test.each(DAYS)('field day %i has in it what it is to prove', (number) => {
  const day = eventsOf(number)
  const truth = trueMatrix(day, ENDS_MS)
  expect(new Set(truth.map(({ state }) => state))).toEqual(
    new Set(['complete', 'partly', 'missing', 'not wanted']),
  )
  const gapsOf = (probe: string) =>
    truth.flatMap(({ standing }) => standing.flatMap((each) => (each.probe === probe ? each.gaps : [])))
  const minutes = gapsOf('TEMP-2').map(({ fromMs, toMs }) => (toMs - fromMs) / 60_000)
  const [silence] = day.plan.silences
  expect(minutes).toEqual([expect.closeTo((silence!.toMs - silence!.fromMs) / 60_000, 0)])
  expect(gapsOf('TEMP-6')).toEqual([{ fromMs: expect.any(Number), toMs: ENDS_MS }])
  // the backlog of 40 minutes closes its gap, and one lost message makes none
  expect([...gapsOf('TEMP-3'), ...gapsOf('TEMP-4'), ...gapsOf('TEMP-5')]).toEqual([])
  expect(day.messages.filter(({ arrivals }) => arrivals.length === 0).map(({ board }) => board)).toEqual([
    'peg-5',
  ])
  const late = day.messages.flatMap(({ arrivals: [first, again] }) =>
    first && again && again.arrivedMs - first.arrivedMs > 30 * 60_000 ? [again] : [],
  )
  expect(late.length).toBeGreaterThan(100)
  expect(new Set(day.messages.map(({ board, startup }) => `${board} ${startup}`)).size).toBe(10 + 4)
})

test.each(DAYS)('field day %i: the matrix is the truth, cell by cell', async (number) => {
  const day = eventsOf(number)
  const hub = opened()
  const happenings = happeningsOf(day)
  // a minute before the lost link is back
  const lostMs = day.plan.lostLink.toMs - 60_000
  const replies = await play(
    hub,
    happenings.filter(({ atMs }) => atMs <= lostMs),
  )
  await expectTruth(hub, day, lostMs, isRightAllAlong)
  const later = await play(
    hub,
    happenings.filter(({ atMs }) => atMs > lostMs),
  )
  await sayWhereItWas(hub, day)
  await putClockRight(hub, day)
  hub.workOff()
  expectStoredOnce(hub, day, [...replies, ...later])
  await expectTruth(hub, day, ENDS_MS)
  await expectTrusted(hub)
  hub.close()
})

test('the same day with the hub closed half way through putting a clock right, and opened again', async () => {
  const day = eventsOf(DAYS[0]!)
  const folder = temporaryFolder()
  const first = opened(folder)
  const happenings = happeningsOf(day)
  const closesMs = day.plan.slowClock.toMs + 10 * 60_000
  const replies = await play(
    first,
    happenings.filter(({ atMs }) => atMs < closesMs),
  )
  await putClockRight(first, day)
  expect(first.hub.writer.reclockSome(first.hub.keeper.clockWork)).toMatchObject({ isLast: false })
  first.close()
  const second = new FieldDayHub(folder, closesMs)
  const later = await play(
    second,
    happenings.filter(({ atMs }) => atMs >= closesMs),
  )
  const atQ8 = (await matrixOf(second)).cells.find(({ quadrat, by }) => quadrat === 'Q8' && by === 'standing')
  expect(atQ8).toMatchObject({ isClockKnown: false, missing: [{ kind: 'clock', of: 'peg-8' }] })
  await sayWhereItWas(second, day)
  second.workOff()
  expectStoredOnce(second, day, [...replies, ...later])
  await expectTruth(second, day, ENDS_MS)
  await expectTrusted(second)
  second.close()
})
