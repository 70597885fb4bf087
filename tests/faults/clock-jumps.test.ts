import { join } from 'node:path'
import Database from 'better-sqlite3'
import { expect, test } from 'vitest'
import { tellCounts } from '../support/fault-counts.ts'
import { holdAgainst, keptMessages } from '../support/kept-messages.ts'
import { connectMqtt } from '../support/mqtt-client.ts'
import { OtherMachine } from '../support/other-machine.ts'
import { startHub } from '../support/running-hub.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'

const DAY_MS = 86_400_000
const BACKLOG_SECONDS = [-20, -10, -5, 0]
const EACH = 10

/** How the date is set while boards talk: ahead of what is true, ms. */
const settings = [
  { what: 'right', aheadMs: 0 },
  { what: 'a day ahead', aheadMs: DAY_MS },
  { what: 'right again', aheadMs: 0 },
  { what: 'a day behind', aheadMs: -DAY_MS },
  { what: 'right once more', aheadMs: 0 },
  { what: 'one second repeated, as at a leap second', aheadMs: -1000 },
]

interface Row {
  board: string
  number: number
  arrived: number
  origin: string
  at: number
  flag: number
}

test('a date that jumps by a day and back, and a second that comes twice, are told and lose nothing; the times within a message keep their order', async () => {
  const dataFolder = temporaryFolder()
  const machine = new OtherMachine(dataFolder)
  const hub = await startHub({ dataFolder, env: machine.env })
  const client = await connectMqtt(hub.mqttUrl)
  const publish = (board: string, number: number, seconds: readonly number[]) =>
    client.publishAsync(
      `tussock/${board}/pack`,
      JSON.stringify([
        { bn: `${board}/`, n: 'startup', v: 1 },
        { n: 'message', v: number },
        ...seconds.map((t) => ({ n: 'temperature', u: 'Cel', v: number, t })),
      ]),
      { qos: 1 },
    )
  const settingOf = new Map<number, string>()
  let number = 0
  for (const { what, aheadMs } of settings) {
    const before = (await hub.now()).clockJumps.length
    const lastAheadMs = settings[settings.findIndex((setting) => setting.what === what) - 1]?.aheadMs ?? 0
    machine.setClockAhead(aheadMs)
    if (Math.abs(aheadMs - lastAheadMs) >= DAY_MS)
      await hub.until(
        () => hub.now(),
        ({ clockJumps }) => clockJumps.length > before,
      )
    for (let each = 0; each < EACH; each++) {
      settingOf.set(++number, what)
      await publish('relative', number, BACKLOG_SECONDS)
      // a board that knows the date, and is right
      const nowSeconds = Math.floor(Date.now() / 1000)
      await publish(
        'dated',
        number,
        BACKLOG_SECONDS.map((second) => nowSeconds + second),
      )
    }
  }
  const { clockJumps, tallies } = await hub.now()
  const days = clockJumps.map(({ byMs }) => byMs / DAY_MS)
  expect(days).toEqual([1, -1, -1, 1].map((jump) => expect.closeTo(jump, 4)))
  expect(tallies).toMatchObject({ messages: number * 2, repeats: 0, quarantined: 0 })
  await hub.stop()

  const database = new Database(join(dataFolder, 'readings.sqlite'), { readonly: true })
  const rows = database
    .prepare(
      `SELECT board.name AS board, number, arrived_ms AS arrived, time_origin AS origin, r.t_ms AS at, flag
       FROM every_reading AS r JOIN message ON message.id = r.id / 1024 JOIN board ON board.id = message.board
       ORDER BY r.id`,
    )
    .all() as Row[]
  database.close()
  for (let message = 1; message <= number; message++)
    for (const board of ['relative', 'dated']) {
      const own = rows.filter((row) => row.board === board && row.number === message)
      const steps = own.map(({ at }) => (at - own.at(-1)!.at) / 1000)
      expect(steps, `${board} ${message}`).toEqual(BACKLOG_SECONDS)
      const setting = settingOf.get(message)!
      // what the hub's clock makes impossible is moved to its arrival, and is suspect; what is only old is believed
      const isMoved = board === 'dated' && setting === 'a day behind'
      for (const { origin, flag } of own) {
        expect(origin === 'shifted to arrival', `${board} ${message}, ${setting}`).toBe(isMoved)
        expect(flag >= 3).toBe(isMoved)
      }
      if (board === 'relative') expect(own.at(-1)!.at).toBe(own[0]!.arrived)
    }
  const boards = ['relative', 'dated'].map((name) => ({ name, acknowledged: settingOf.keys() }))
  const held = holdAgainst(keptMessages(dataFolder), boards, BACKLOG_SECONDS.length)
  expect(held).toEqual({ acknowledged: number * 2, stored: number * 2, lost: 0, doubled: 0 })
  tellCounts({
    what: 'date set a day ahead, a day back, a second repeated',
    times: 5,
    sent: number * 2,
    ...held,
  })
})
