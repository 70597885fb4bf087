import { afterEach, describe, expect, test } from 'vitest'
import type { Completeness } from '../../../../hub/contract/field.ts'
import { temporaryFolder } from '../../../support/temporary-folder.ts'
import { eventsOf } from './field-day-events.ts'
import { FieldDayHub } from './field-day-hub.ts'
import { happeningsOf, play } from './field-day-replay.ts'
import { BEGINS_MS, ENDS_MS, fieldDaySurvey, SURVEY } from './field-day-survey.ts'

// expected values follow from the messages as they are listed

let hub: FieldDayHub
afterEach(() => hub.close())

function opened(folder = temporaryFolder()): void {
  hub = new FieldDayHub(folder, BEGINS_MS)
  hub.hub.keeper.save(fieldDaySurvey(), 'before the day')
}

/** Messages of peg-1 by start-up and number, one after another; a pair that was there before is a repeat. */
async function hear(...messages: [startup: number, number: number][]): Promise<void> {
  for (const [startup, number] of messages) {
    const pack = [
      { bn: 'peg-1/', n: 'startup', v: startup },
      { n: 'message', v: number },
      { n: 'temperature', u: 'Cel', v: number, t: -1 },
    ]
    const bytes = Buffer.from(JSON.stringify(pack))
    hub.nowMs += 10_000
    await hub.receive([{ source: 'mqtt:peg-1', arrivedMs: hub.nowMs, format: 'pack', board: 'peg-1', bytes }])
  }
}

async function missed(): Promise<Record<string, number>> {
  const { loss } = await hub.ask<Completeness>(`/api/surveys/${SURVEY}/completeness`)
  return Object.fromEntries(loss.flatMap(({ board, missed }) => (missed > 0 ? [[board, missed]] : [])))
}

const troubles = () => hub.watch.seen().flatMap(({ trouble }) => trouble ?? [])

describe('what a board has lost', () => {
  test('a message that never came stays missed when another one is sent twice', async () => {
    opened()
    await hear([1, 1], [1, 2], [1, 4])
    expect(await missed()).toEqual({ 'peg-1': 1 })
    await hear([1, 2])
    expect(await missed()).toEqual({ 'peg-1': 1 })
  })
  test('a message that comes late after all is missed no more', async () => {
    opened()
    await hear([1, 1], [1, 2], [1, 4], [1, 3])
    expect(await missed()).toEqual({})
  })
  test('a repeat from before a restart is no second board of that name', async () => {
    opened()
    await hear([1, 1], [1, 2], [2, 1], [1, 2], [2, 2])
    expect(troubles()).toEqual([])
  })
  test('a hub that was opened again does not count from a repeat', async () => {
    const folder = temporaryFolder()
    opened(folder)
    await hear([1, 1], [1, 2], [1, 3], [1, 4], [1, 5])
    hub.close()
    opened(folder)
    await hear([1, 2], [1, 6])
    expect(await missed()).toEqual({})
  })
  test('a whole day: one message of one board', async () => {
    const day = eventsOf(11)
    opened()
    await play(hub, happeningsOf(day))
    hub.nowMs = ENDS_MS
    expect(await missed()).toEqual({ 'peg-5': 1 })
    expect(troubles()).toEqual([])
  })
})
