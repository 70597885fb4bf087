import { expect, test } from 'vitest'
import type { Completeness, CompletenessCell } from '../../../../hub/contract/field.ts'
import { temporaryFolder } from '../../../support/temporary-folder.ts'
import { type DayEvents, eventsOf } from './field-day-events.ts'
import { FieldDayHub } from './field-day-hub.ts'
import { happeningsOf, play, putClockRight, sayWhereItWas } from './field-day-replay.ts'
import { BEGINS_MS, ENDS_MS, fieldDaySurvey, SURVEY } from './field-day-survey.ts'
import { type TrueCell, trueMatrix, trulyLost } from './field-day-truth.ts'

// expected values are counted from the events of the day itself, in field-day-truth.ts, without any code of the hub

/** A board without a clock is dated by its arrival: as true as a message is quick. */
const QUICK_MS = 100

function opened(folder = temporaryFolder()): FieldDayHub {
  const hub = new FieldDayHub(folder, BEGINS_MS)
  hub.hub.keeper.save(fieldDaySurvey(), 'before the day')
  return hub
}

/** A cell of the hub in the words of the truth. */
function asTold(cell: CompletenessCell): TrueCell {
  return {
    cell: `${cell.quadrat} ${cell.quantity} ${JSON.stringify(cell.method)}`,
    state: cell.state,
    got: cell.got,
    needed: cell.needed,
    minutes: cell.minutes,
    standing: cell.standing.map(({ probe, received, expected, gaps, isThere, isLogging }) => ({
      probe,
      received,
      expected: expected!,
      gaps,
      isThere,
      isLogging,
    })),
    missing: cell.missing.map(({ kind, words, of }) => {
      const toTake = /(\d+) (?:more|replicates?) to take$/.exec(words)?.[1]
      return [kind, ...(of === null ? [] : [of]), ...(toTake === undefined ? [] : [toTake])].join(' ')
    }),
    lastMs: cell.last?.timeMs ?? null,
  }
}

/** A time as the truth has it, where the hub’s is as near as a message is quick. */
const near = (toldMs: number, trueMs: number | null | undefined) =>
  trueMs != null && Math.abs(toldMs - trueMs) <= QUICK_MS ? trueMs : toldMs

function withNearTimes(told: TrueCell, truth: TrueCell): TrueCell {
  return {
    ...told,
    lastMs: told.lastMs === null ? null : near(told.lastMs, truth.lastMs),
    standing: told.standing.map((each, place) => ({
      ...each,
      gaps: each.gaps.map(({ fromMs, toMs }, index) => {
        const gap = truth.standing[place]?.gaps[index]
        return { fromMs: near(fromMs, gap?.fromMs), toMs: near(toMs, gap?.toMs) }
      }),
    })),
  }
}

const matrixOf = (hub: FieldDayHub) => hub.ask<Completeness>(`/api/surveys/${SURVEY}/completeness`)

async function expectTruth(hub: FieldDayHub, day: DayEvents): Promise<void> {
  hub.nowMs = ENDS_MS
  const { cells } = await matrixOf(hub)
  const truth = trueMatrix(day)
  expect(cells.map((cell, place) => withNearTimes(asTold(cell), truth[place]!))).toEqual(truth)
  // every clock is right by now, and every probe was calibrated before the day
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
    messages: came.length + day.typed.filter(({ sentMs }) => sentMs < ENDS_MS).length,
    readings: came.reduce((sum, { signals }) => sum + signals.length, 0) + day.typed.length,
    repeats: sent - came.length,
    quarantined: 0,
  })
}

test.each([11, 1906, 40_321])('field day %i: the matrix is the truth, cell by cell', async (number) => {
  const day = eventsOf(number)
  const hub = opened()
  const replies = await play(hub, happeningsOf(day))
  await sayWhereItWas(hub, day)
  await putClockRight(hub, day)
  hub.workOff()
  expectStoredOnce(hub, day, replies)
  await expectTruth(hub, day)
  hub.close()
})

test('the same day with the hub closed half way through putting a clock right, and opened again', async () => {
  const day = eventsOf(11)
  const folder = temporaryFolder()
  const first = opened(folder)
  const happenings = happeningsOf(day)
  const closesMs = day.plan.slowClock.toMs + 10 * 60_000
  const replies = await play(
    first,
    happenings.filter(({ atMs }) => atMs < closesMs),
  )
  await putClockRight(first, day)
  expect(first.hub.writer.reclockSome(first.hub.keeper.clockShift)).toMatchObject({ isLast: false })
  first.close()
  const second = new FieldDayHub(folder, closesMs)
  const later = await play(
    second,
    happenings.filter(({ atMs }) => atMs >= closesMs),
  )
  await sayWhereItWas(second, day)
  second.workOff()
  expectStoredOnce(second, day, [...replies, ...later])
  await expectTruth(second, day)
  second.close()
})

test('what boards have lost for good is told, however often others were sent twice', async () => {
  const day = eventsOf(11)
  const hub = opened()
  await play(hub, happeningsOf(day))
  hub.nowMs = ENDS_MS
  const { loss } = await matrixOf(hub)
  const missed = new Map(loss.flatMap(({ board, missed }) => (missed > 0 ? [[board, missed]] : [])))
  expect(missed).toEqual(trulyLost(day))
  expect(hub.watch.seen().flatMap(({ trouble }) => trouble ?? [])).toEqual([])
  hub.close()
})
