import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { expect, test } from 'vitest'
import { LONG_MS, tellCounts, times } from '../support/fault-counts.ts'
import { holdAgainst, keptMessages } from '../support/kept-messages.ts'
import { OtherMachine } from '../support/other-machine.ts'
import { type HubProcess, startHub } from '../support/running-hub.ts'
import { SendingBoard } from '../support/sending-board.ts'
import { SmallDisk } from '../support/small-disk.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'

const TURNS = times(3)

/** Boards talk; again and again the disk fails under them and comes back. All is to be stored in the end. */
async function failAgainAndAgain(
  what: string,
  hub: HubProcess,
  disk: { fail: () => void; mend: () => void },
  said: RegExp,
): Promise<void> {
  const boards = [0, 1, 2].map((index) => new SendingBoard(`board-${index}`, { window: 20 }))
  const acknowledged = () => boards.reduce((sum, board) => sum + board.acknowledged.size, 0)
  const trouble = (isThere: boolean) =>
    hub.until(
      () => hub.now(),
      (now) => (now.trouble !== null) === isThere,
    )
  let isEnough = false
  const talking = boards.map((board) => board.talk(hub.mqttUrl, () => isEnough))
  for (let turn = 0; turn < TURNS; turn++) {
    await pause(100 + Math.random() * 200)
    disk.fail()
    expect((await trouble(true)).trouble).toMatch(said)
    expect((await hub.request('/api/health')).status).toBe(503)
    const before = acknowledged()
    disk.mend()
    await trouble(false)
    await hub.until(
      () => Promise.resolve(acknowledged()),
      (now) => now > before,
    )
  }
  isEnough = true
  await Promise.all(talking)
  expect(await hub.stop()).toMatchObject({ code: 0 })
  const kept = keptMessages(hub.dataFolder)
  expect(kept.integrity).toBe('ok')
  const sent = boards.reduce((sum, board) => sum + board.sent, 0)
  const held = holdAgainst(
    kept,
    boards.map(({ name, acknowledged }) => ({ name, acknowledged: acknowledged.keys() })),
  )
  expect(held).toEqual({ acknowledged: sent, stored: sent, lost: 0, doubled: 0 })
  tellCounts({ what, times: TURNS, sent, ...held })
}

test(
  `a disk that fills up ${TURNS} times under boards that talk loses nothing, and the hub says when it is full and goes on by itself`,
  async () => {
    // room for what boards send as fast as they can: it is to be full only when it is filled
    const disk = new SmallDisk(80_000_000 + TURNS * 15_000_000)
    const dataFolder = join(disk.folder, 'data')
    const hub = await startHub({ dataFolder })
    await failAgainAndAgain(
      'disk full and back',
      hub,
      { fail: () => disk.fill(), mend: () => disk.free() },
      /^E_DISK: The disk of .* takes no more .*Free some space/,
    )
  },
  LONG_MS,
)

test(
  `a disk that becomes read-only ${TURNS} times under boards that talk is said to be so in words, and nothing is lost`,
  async () => {
    const dataFolder = join(temporaryFolder(), 'data')
    const machine = new OtherMachine(dataFolder)
    const hub = await startHub({ dataFolder, env: machine.env })
    await failAgainAndAgain(
      'disk read-only and back',
      hub,
      { fail: () => machine.refuseWriting('EROFS'), mend: () => machine.refuseWriting(null) },
      /^E_DATA_READ_ONLY: The disk of .* has become read-only/,
    )
  },
  LONG_MS,
)
