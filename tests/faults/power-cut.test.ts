import { spawnSync } from 'node:child_process'
import { rmSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import Database from 'better-sqlite3'
import { expect, test } from 'vitest'
import { SqliteWriter } from '../../hub/store/sqlite-writer.ts'
import { CUTS, type Cut, DiskHistory } from '../support/disk-history.ts'
import { exampleSurvey } from '../support/example-survey.ts'
import { LONG_MS, tellCounts, times } from '../support/fault-counts.ts'
import { type Held, holdAgainst, keptMessages } from '../support/kept-messages.ts'
import { OtherMachine } from '../support/other-machine.ts'
import { startHub } from '../support/running-hub.ts'
import { SendingBoard } from '../support/sending-board.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'

/*
 * The model of a power cut. While a hub runs under load, every change it makes to files of its data folder is noted with
 * its bytes, its order and its time (LD_PRELOAD, machine-shim.c), and so is every fsync. A cut is then made just before
 * any one of these changes. For certain there is only what was forced to the disk by then: a file's bytes by an fsync of
 * that file, its name by an fsync of the folder. What was written later is, by turns, all gone; there in a random choice,
 * in whichever order, some of it torn at sectors of 512 bytes; or all there but for a torn last write. The shared memory
 * beside the log (-shm) is left out, as it is made anew.
 * What boards had been answered by that moment (both processes read one monotonic clock) must be there, exactly once.
 *
 * Not in the model: a disk that says it has written what it has not, and one that spoils bytes it was not asked to write.
 */

const CUTS_MADE = times(60)

test(
  `whatever of ${CUTS_MADE} moments the power goes, all that was acknowledged by then is there once, and the hub opens it`,
  async () => {
    const dataFolder = join(temporaryFolder(), 'data')
    const machine = new OtherMachine(dataFolder, { isNoting: true })
    const hub = await startHub({ dataFolder, env: machine.env })
    const boards = [0, 1, 2, 3].map((index) => new SendingBoard(`board-${index}`))
    let isEnough = false
    const talking = boards.map((board) => board.talk(hub.mqttUrl, () => isEnough))
    for (const title of ['first', 'second']) {
      await pause(900)
      // saving a survey moves all readings to their sorted place, as time does
      await hub.send('PUT', '/api/surveys/example', { ...exampleSurvey(), title })
    }
    await pause(700)
    isEnough = true
    await Promise.all(talking)
    await hub.stop()

    const history = new DiskHistory(machine.log, Math.random)
    const moments = history.moments()
    const before = Array.from({ length: CUTS_MADE }, () => Math.floor(Math.random() * moments.length))
      .filter((place, index, all) => all.indexOf(place) === index)
      .sort((one, other) => one - other)
    const cutOf = (place: number): Cut => CUTS[place % CUTS.length]!
    const sum: Held = { acknowledged: 0, stored: 0, lost: 0, doubled: 0 }
    let withoutAny = 0
    let place = 0
    for (const { index, folder } of history.cuts(before, cutOf, () => join(temporaryFolder(), 'data'))) {
      const atNs = moments[index]!
      const known = boards.map(({ name, acknowledged }) => ({
        name,
        acknowledged: [...acknowledged].filter(([, ns]) => ns < atNs).map(([number]) => number),
      }))
      // opened as at a start, which recovers, migrates and seals
      new SqliteWriter(folder).close()
      const kept = keptMessages(folder)
      const held = holdAgainst(kept, known)
      const where = `${cutOf(place++)}, before change ${index} of ${moments.length}`
      expect(kept.integrity, where).toBe('ok')
      expect(held, where).toMatchObject({ lost: 0, doubled: 0 })
      for (const key of ['acknowledged', 'stored', 'lost', 'doubled'] as const) sum[key] += held[key]
      if (held.acknowledged === 0) withoutAny++
      rmSync(folder, { recursive: true })
    }
    expect(place).toBe(before.length)
    expect(withoutAny).toBeLessThan(before.length / 2)
    const sent = boards.reduce((total, board) => total + board.sent, 0)
    tellCounts({ what: 'power cut while readings pour in', times: place, sent, ...sum })
  },
  LONG_MS,
)

/** Stores numbers and says each once it is committed, but never waits for the disk. */
const careless = `
const database = new (require('better-sqlite3'))(process.argv[1])
database.pragma('journal_mode = WAL')
database.pragma('synchronous = OFF')
database.exec('CREATE TABLE said (number INTEGER PRIMARY KEY)')
const add = database.prepare('INSERT INTO said VALUES (?)')
for (let number = 1; number <= 200; number++) {
  add.run(number)
  console.log(number, String(process.hrtime.bigint()))
}
process.kill(process.pid, 'SIGKILL')
`

test('the model itself tells a store that answers before the disk has it: that one has lost what it said', () => {
  const dataFolder = temporaryFolder()
  const machine = new OtherMachine(dataFolder, { isNoting: true })
  const said = spawnSync(process.execPath, ['-e', careless, join(dataFolder, 'readings.sqlite')], {
    env: { ...process.env, ...machine.env },
    encoding: 'utf8',
  })
  const answers = said.stdout.trim().split('\n')
  expect(answers).toHaveLength(200)
  const history = new DiskHistory(machine.log, Math.random)
  const last = history.moments().length - 1
  const cuts = history.cuts([last], () => 'nothing more', temporaryFolder)
  const { folder } = cuts.next().value!
  const database = new Database(join(folder, 'readings.sqlite'))
  const tables = database.prepare("SELECT count(*) FROM sqlite_schema WHERE name = 'said'").pluck().get()
  database.close()
  expect(tables).toBe(0)
})
