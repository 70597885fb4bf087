import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import Database from 'better-sqlite3'
import { expect, test } from 'vitest'
import { LONG_MS, tellCounts, times } from '../support/fault-counts.ts'
import { holdAgainst, keptMessages } from '../support/kept-messages.ts'
import { startHub } from '../support/running-hub.ts'
import { READINGS_EACH, SendingBoard } from '../support/sending-board.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'

const KILLS = Number(process.env['TUSSOCK_KILLS'] ?? times(20))
const BOARDS = 4

test(
  `killed ${KILLS} times while readings pour in, the hub has lost nothing it acknowledged and doubled nothing`,
  async () => {
    const dataFolder = temporaryFolder()
    const boards = Array.from({ length: BOARDS }, (_, index) => new SendingBoard(`board-${index}`))
    const known = () => boards.map(({ name, acknowledged }) => ({ name, acknowledged: acknowledged.keys() }))
    const acknowledgedAt: number[] = []
    for (let kill = 0; kill <= KILLS; kill++) {
      const hub = await startHub({ dataFolder })
      const isLast = kill === KILLS
      const talking = boards.map((board) => board.talk(hub.mqttUrl, () => isLast))
      if (isLast) {
        await Promise.all(talking)
        await hub.stop()
        break
      }
      // anywhere in the life of a commit: the moments differ from run to run, the claim does not
      await pause(30 + Math.random() * 270)
      await hub.kill()
      await Promise.all(talking)
      acknowledgedAt.push(boards.reduce((sum, board) => sum + board.acknowledged.size, 0))
      const kept = keptMessages(dataFolder)
      expect(kept.integrity).toBe('ok')
      expect(holdAgainst(kept, known())).toMatchObject({ lost: 0, doubled: 0 })
    }
    const sent = boards.reduce((sum, board) => sum + board.sent, 0)
    for (const board of boards) expect(board.acknowledged.size).toBe(board.sent)
    const database = new Database(join(dataFolder, 'readings.sqlite'), { readonly: true })
    expect(database.prepare('SELECT count(*) FROM message').pluck().get()).toBe(sent)
    expect(database.prepare('SELECT count(*) FROM every_reading').pluck().get()).toBe(sent * READINGS_EACH)
    expect(database.prepare("SELECT count FROM tally WHERE name = 'readings'").pluck().get()).toBe(
      sent * READINGS_EACH,
    )
    database.close()
    // the kills came while messages were being acknowledged, not before
    expect(acknowledgedAt.at(-1)).toBeGreaterThan(KILLS * 10)
    tellCounts({
      what: 'kill -9 while readings pour in',
      times: KILLS,
      sent,
      ...holdAgainst(keptMessages(dataFolder), known()),
    })
  },
  LONG_MS,
)
