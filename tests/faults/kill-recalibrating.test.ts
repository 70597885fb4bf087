import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import Database from 'better-sqlite3'
import { expect, test } from 'vitest'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { exampleSurvey } from '../support/example-survey.ts'
import { LONG_MS, tellCounts, times } from '../support/fault-counts.ts'
import { fillFolder } from '../support/filled-folder.ts'
import { holdAgainst, keptMessages } from '../support/kept-messages.ts'
import { startHub } from '../support/running-hub.ts'
import { SendingBoard } from '../support/sending-board.ts'
import { SmallHub } from '../support/small-hub.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'

const KILLS = times(6)
const MESSAGES = 6_000

/** The example survey with another correction of the thermometer. */
function recalibrated(offsetCelsius: number): SurveyFile {
  const survey = exampleSurvey()
  const recipe = { kind: 'digital-temperature' as const, offsetCelsius }
  const calibrations = survey.calibrations.map((calibration) =>
    calibration.id === 'temp-cal-1' ? { ...calibration, recipe } : calibration,
  )
  return { ...survey, calibrations }
}

function offsetIn(folder: string): number | undefined {
  const hub = new SmallHub(folder)
  const { calibrations } = hub.keeper.timelines.surveys[0]!
  hub.close()
  const recipe = calibrations.find(({ id }) => id === 'temp-cal-1')?.recipe
  return recipe?.kind === 'digital-temperature' ? recipe.offsetCelsius : undefined
}

function ask<T>(folder: string, question: (database: Database.Database) => T): T {
  const database = new Database(join(folder, 'readings.sqlite'), { readonly: true })
  try {
    return question(database)
  } finally {
    database.close()
  }
}

/** how many spans are still to be recomputed or reviewed */
const dueIn = (folder: string) =>
  ask(folder, (database) =>
    database.prepare('SELECT (SELECT count(*) FROM recompute) + (SELECT count(*) FROM review)').pluck().get(),
  ) as number

/** Every reading of the filled board with all that is derived from it. */
const derivedIn = (folder: string) =>
  ask(folder, (database) =>
    database
      .prepare(
        `SELECT message.number, channel.name, r.t_ms, signal, value, uncertainty, flag, calibration.id, why
         FROM every_reading AS r JOIN message ON message.id = r.id / 1024 JOIN board ON board.id = message.board
         JOIN channel ON channel.id = r.channel LEFT JOIN calibration ON calibration.ref = r.calibration
         WHERE board.name = 'sedge-1' ORDER BY 1, 2`,
      )
      .raw()
      .all(),
  )

test(
  `killed ${KILLS} times while a new calibration is worked in, the hub ends with the values it would have had`,
  async () => {
    const dataFolder = temporaryFolder()
    fillFolder(dataFolder, MESSAGES)
    const before = new SmallHub(dataFolder)
    before.keeper.save(recalibrated(0), 'placed')
    before.close()
    const boards = ['board-0', 'board-1'].map((name) => new SendingBoard(name, { window: 10 }))
    const known = () => [
      ...boards.map(({ name, acknowledged }) => ({ name, acknowledged: acknowledged.keys() })),
      { name: 'sedge-1', acknowledged: Array.from({ length: MESSAGES }, (_, place) => place + 1) },
    ]
    let saved: number | undefined = 0
    let cutShort = 0
    for (let kill = 0; kill < KILLS; kill++) {
      const hub = await startHub({ dataFolder })
      const talking = boards.map((board) => board.talk(hub.mqttUrl, () => false))
      await Promise.all(boards.map((board) => board.nextAcknowledged()))
      const offset = (kill + 1) / 8
      const answer = hub.send('PUT', '/api/surveys/example', recalibrated(offset)).then(
        () => true,
        () => false,
      )
      // before the answer, or in the work that follows it
      if (kill % 3 > 0) await answer
      await pause(Math.random() * 100)
      await hub.kill()
      await Promise.all(talking)
      const kept = keptMessages(dataFolder)
      expect(kept.integrity).toBe('ok')
      expect(holdAgainst(kept, known())).toMatchObject({ lost: 0, doubled: 0 })
      if (dueIn(dataFolder) > 0) cutShort++
      // a survey that was answered for is there; without an answer it is the new one or the one before, whole
      const now = offsetIn(dataFolder)
      expect((await answer) ? [offset] : [saved, offset]).toContain(now)
      saved = now
    }
    expect(cutShort).toBeGreaterThan(KILLS / 3)

    const last = await startHub({ dataFolder })
    await Promise.all(boards.map((board) => board.talk(last.mqttUrl, () => true)))
    await last.until(
      () => Promise.resolve(dueIn(dataFolder)),
      (due) => due === 0,
    )
    await last.stop()

    const untroubled = temporaryFolder()
    const reference = new SmallHub(untroubled)
    reference.keeper.save(recalibrated(saved!), 'as it ended')
    reference.close()
    fillFolder(untroubled, MESSAGES)
    const again = new SmallHub(untroubled)
    again.review()
    again.close()
    const ended = derivedIn(dataFolder)
    expect(ended).toHaveLength(MESSAGES * 2)
    expect(ended).toEqual(derivedIn(untroubled))
    const sent = boards.reduce((sum, board) => sum + board.sent, MESSAGES)
    tellCounts({
      what: 'kill -9 while a new calibration is worked in',
      times: KILLS,
      sent,
      ...holdAgainst(keptMessages(dataFolder), known()),
    })
  },
  LONG_MS,
)
