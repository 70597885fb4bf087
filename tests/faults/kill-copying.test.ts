import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { get } from 'node:http'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { expect, test } from 'vitest'
import { checkDatabase } from '../../hub/backup/check-database.ts'
import { exampleSurvey } from '../support/example-survey.ts'
import { LONG_MS, tellCounts, times } from '../support/fault-counts.ts'
import { fillFolder } from '../support/filled-folder.ts'
import { holdAgainst, keptMessages } from '../support/kept-messages.ts'
import { startHub } from '../support/running-hub.ts'
import { SendingBoard } from '../support/sending-board.ts'
import { SmallHub } from '../support/small-hub.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'
import { runTussock, spawnTussock } from '../support/tussock-command.ts'

const KILLS = times(4)
const MESSAGES = 10_000

function filledFolder(): string {
  const folder = temporaryFolder()
  const hub = new SmallHub(folder)
  hub.keeper.save(exampleSurvey(), 'test')
  hub.close()
  fillFolder(folder, MESSAGES)
  return folder
}

/** Reads an address to its end, however that comes. `isWhole`: the hub has said itself that this was all of it */
function download(url: string): Promise<{ isWhole: boolean; bytes: Buffer }> {
  return new Promise((resolve) => {
    const nothing = { isWhole: false, bytes: Buffer.alloc(0) }
    const asking = get(url, (answer) => {
      const pieces: Buffer[] = []
      answer.on('data', (piece: Buffer) => pieces.push(piece))
      answer.on('error', () => resolve(nothing))
      answer.on('close', () => resolve({ isWhole: answer.complete, bytes: Buffer.concat(pieces) }))
    })
    asking.on('error', () => resolve(nothing))
  })
}

/** Starts a command and kills it, if it has not ended by then. @returns whether it was still at work */
async function killedCommand(args: readonly string[], afterMs: number): Promise<boolean> {
  const child = spawnTussock(args)
  const ended = new Promise<boolean>((resolve) => child.once('close', (code) => resolve(code === null)))
  await Promise.race([ended, pause(afterMs)])
  child.kill('SIGKILL')
  return ended
}

/** how long a command takes from its start to its end, ms */
async function timeOf(args: readonly string[]): Promise<number> {
  const begun = performance.now()
  expect(await runTussock(...args)).toMatchObject({ code: 0 })
  return performance.now() - begun
}

test(
  `of a download that was under way when the hub was killed (${KILLS} times), nobody can think it whole`,
  async () => {
    const dataFolder = filledFolder()
    const boards = [new SendingBoard('board-0', { window: 10 })]
    const csv = '/api/export/readings.csv?set=all&quantity=soil_temperature'
    let broken = 0
    for (let kill = 0; kill < KILLS; kill++) {
      const hub = await startHub({ dataFolder })
      const talking = boards.map((board) => board.talk(hub.mqttUrl, () => false))
      await boards[0]!.nextAcknowledged()
      const path = kill % 2 === 0 ? csv : '/api/surveys/example/export/bundle'
      const settled = download(`${hub.address}${path}`)
      await pause(Math.random() * 150)
      await hub.kill()
      await Promise.all(talking)
      const { isWhole, bytes } = await settled
      // one that ended in order is complete: the last line of a table, the directory at the end of an archive
      if (!isWhole) broken++
      else if (path === csv) expect(bytes.toString().trimEnd().split('\r\n')).toHaveLength(MESSAGES + 1)
      else expect(bytes.subarray(-22).readUInt32LE(0)).toBe(0x06054b50)
      const kept = keptMessages(dataFolder)
      expect(kept.integrity).toBe('ok')
      const known = boards.map(({ name, acknowledged }) => ({ name, acknowledged: acknowledged.keys() }))
      expect(holdAgainst(kept, known)).toMatchObject({ lost: 0, doubled: 0 })
    }
    expect(broken).toBeGreaterThan(0)
    const last = await startHub({ dataFolder })
    await Promise.all(boards.map((board) => board.talk(last.mqttUrl, () => true)))
    await last.stop()
    const known = boards.map(({ name, acknowledged }) => ({ name, acknowledged: acknowledged.keys() }))
    tellCounts({
      what: 'kill -9 while a download is under way',
      times: KILLS,
      sent: boards[0]!.sent,
      ...holdAgainst(keptMessages(dataFolder), known),
    })
  },
  LONG_MS,
)

test(
  `a command that is killed while it writes a file (${KILLS} times) leaves no file, or the one that was there before`,
  async () => {
    const data = filledFolder()
    const written = ['export', 'readings', '--set', 'all', '--data', data, '--out']
    const whole = join(data, 'whole.csv')
    const wholeMs = await timeOf([...written, whole])
    let broken = 0
    for (let kill = 0; kill < KILLS; kill++) {
      const out = join(temporaryFolder(), 'readings.csv')
      if (kill % 2 === 1) writeFileSync(out, 'last week’s')
      // the first surely before its end, however the machine is loaded
      const share = kill === 0 ? 0.1 : 0.3 + 0.65 * Math.random()
      const wasKilled = await killedCommand([...written, out], wholeMs * share)
      if (wasKilled) broken++
      if (!wasKilled) expect(readFileSync(out).equals(readFileSync(whole))).toBe(true)
      else if (kill % 2 === 1) expect(readFileSync(out, 'utf8')).toBe('last week’s')
      else expect(existsSync(out)).toBe(false)
    }
    expect(broken).toBeGreaterThan(0)
    tellCounts({
      what: 'kill -9 of a command that writes a file',
      ...{ times: broken, sent: 0, acknowledged: 0, stored: 0, doubled: 0, lost: 0 },
    })
  },
  LONG_MS,
)

test(
  `killed ${KILLS} times while a backup is made, no beginning of one is taken for a backup, and what was acknowledged is there`,
  async () => {
    const dataFolder = filledFolder()
    const to = temporaryFolder()
    const boards = [new SendingBoard('board-0', { window: 10 })]
    const known = () => boards.map(({ name, acknowledged }) => ({ name, acknowledged: acknowledged.keys() }))
    let broken = 0
    for (let kill = 0; kill < KILLS; kill++) {
      const hub = await startHub({ dataFolder, args: ['--backup-to', to] })
      const talking = boards.map((board) => board.talk(hub.mqttUrl, () => false))
      await boards[0]!.nextAcknowledged()
      const before = boards[0]!.acknowledged.size
      const answer = hub.send<{ file: string }>('POST', '/api/backup').then(
        ({ file }) => file,
        () => null,
      )
      // the first surely before its end
      await pause(kill === 0 ? 5 : Math.random() * 150)
      await hub.kill()
      await Promise.all(talking)
      const file = await answer
      if (file === null) broken++
      else {
        const copied = keptMessages(folderOf(file))
        expect(copied.byBoard.get('board-0')!.size).toBeGreaterThanOrEqual(before)
      }
      for (const name of readdirSync(to).filter((each) => each.endsWith('.sqlite')))
        expect(checkDatabase(join(to, name)).trouble).toBeNull()
      const kept = keptMessages(dataFolder)
      expect(kept.integrity).toBe('ok')
      expect(holdAgainst(kept, known())).toMatchObject({ lost: 0, doubled: 0 })
    }
    expect(broken).toBeGreaterThan(0)
    const hub = await startHub({ dataFolder, args: ['--backup-to', to] })
    await Promise.all(boards.map((board) => board.talk(hub.mqttUrl, () => true)))
    // what was left behind goes when it is too old to be anybody's work
    const part = join(to, 'tussock-2020-01-01T00-00-00-000Z.sqlite.part')
    writeFileSync(part, 'half')
    const young = join(to, 'tussock-2020-01-02T00-00-00-000Z.sqlite.part')
    writeFileSync(young, 'half')
    utimesSync(part, 0, 0)
    await hub.send('POST', '/api/backup')
    expect([existsSync(part), existsSync(young)]).toEqual([false, true])
    await hub.stop()
    const restored = temporaryFolder()
    expect(await runTussock('restore', to, '--data', restored)).toMatchObject({ code: 0 })
    expect(holdAgainst(keptMessages(restored), known())).toMatchObject({ lost: 0, doubled: 0 })
    tellCounts({
      what: 'kill -9 while a backup is made',
      times: KILLS,
      sent: boards[0]!.sent,
      ...holdAgainst(keptMessages(dataFolder), known()),
    })
  },
  LONG_MS,
)

test('a restore that is killed between putting the old database aside and the new one in its place is noticed, and completed by another', async () => {
  const dataFolder = temporaryFolder()
  const stick = temporaryFolder()
  const hub = await startHub({ dataFolder, args: ['--backup-to', stick] })
  const board = new SendingBoard('board-0', { window: 10 })
  let isEnough = false
  const talking = board.talk(hub.mqttUrl, () => isEnough)
  await hub.send('POST', '/api/backup')
  await hub.until(
    () => hub.now(),
    ({ tallies }) => tallies.messages > 50,
  )
  isEnough = true
  await talking
  await hub.kill()
  const file = join(dataFolder, 'readings.sqlite')
  // as a kill leaves it: copied, the database aside, and its log not yet
  copyFileSync(join(stick, readdirSync(stick)[0]!), `${file}.restoring`)
  renameSync(file, `${file}.before-2026-06-12T09-00-00-000Z`)
  const refused = await runTussock('start', '--data', dataFolder, '--port', '0', '--mqtt-port', '0')
  expect(refused).toMatchObject({ code: 1, stdout: '' })
  expect(refused.stderr).toMatch(/^E_RESTORE: A restore into .* was broken off; .* Run the restore again/)
  expect(await runTussock('restore', stick, '--data', dataFolder)).toMatchObject({ code: 0 })
  const again = await startHub({ dataFolder })
  await again.stop()
  expect(keptMessages(dataFolder).integrity).toBe('ok')
  // the old one is whole: its log is with it
  const aside = folderOf(`${file}.before-2026-06-12T09-00-00-000Z`)
  const known = [{ name: board.name, acknowledged: board.acknowledged.keys() }]
  expect(holdAgainst(keptMessages(aside), known)).toMatchObject({ stored: board.sent, lost: 0, doubled: 0 })
})

/** A folder in which a database is what a hub's own is, with its log where it has one. */
function folderOf(database: string): string {
  const folder = join(temporaryFolder(), 'copied')
  mkdirSync(folder)
  for (const end of ['', '-wal'])
    if (existsSync(database + end)) copyFileSync(database + end, join(folder, `readings.sqlite${end}`))
  return folder
}
