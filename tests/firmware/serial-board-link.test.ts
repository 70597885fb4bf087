import { readFile } from 'node:fs/promises'
import { expect, test } from 'vitest'
import { type HubProcess, startHub } from '../support/running-hub.ts'
import { buildSketch } from './build-firmware.ts'
import { EmulatedBoard } from './emulated-board.ts'
import { HeardBoard } from './heard-board.ts'

const everySecond = () => buildSketch('serial-board', { INTERVAL_MILLIS: 1000 })

async function portState(hub: HubProcess, state: string): Promise<void> {
  await hub.until(
    () => hub.directory(),
    ({ ports }) => ports[0]?.state === state,
  )
}

function messages(hub: HubProcess, count: number) {
  return hub.until(
    () => hub.now(),
    ({ tallies }) => tallies.messages >= count,
  )
}

test('unplugged in the same tick as a line, the board is gone for the hub, and heard again when it is back', async () => {
  const board = await EmulatedBoard.plugIn(everySecond())
  const hub = await startHub({ args: ['--serial', board.path] })
  await messages(hub, 1)
  board.orderLast('end-after-lines 1')
  await board.gone
  await portState(hub, 'gone')
  // a port that is read for ever would keep a core busy
  const busyBefore = cpuMs(await processTimes(hub.pid))
  await hub.until(
    () => hub.directory(),
    ({ ports }) =>
      ports[0]!.trouble!.includes('E_PORT_MISSING') || ports[0]!.trouble!.includes('E_PORT_GONE'),
  )
  const { messages: before } = (await hub.now()).tallies
  expect(cpuMs(await processTimes(hub.pid)) - busyBefore).toBeLessThan(1500)
  await EmulatedBoard.plugIn(everySecond(), { path: board.path })
  await portState(hub, 'open')
  await messages(hub, before + 2)
  // at most the line that the reset on opening broke off, and the one it broke into
  const broken = (await hub.quarantined()).map(({ code }) => code)
  expect(broken.length).toBeLessThanOrEqual(2)
  for (const code of broken) expect(['E_LINE_UNREADABLE', 'E_CHECKSUM']).toContain(code)
})

test('a board that stands still is found silent, and open again when it goes on', async () => {
  const board = await EmulatedBoard.plugIn(everySecond())
  const heard = await HeardBoard.on(board, { silenceMs: 2500 })
  await heard.next()
  board.stall()
  const { trouble } = await heard.bench.until(board.path, 'silent')
  expect(trouble).toContain('E_PORT_SILENT')
  board.goOn()
  await heard.bench.until(board.path, 'open')
  await heard.next((said) => said.message !== undefined)
})

test('a port opened at another baud rate than the board’s stores nothing, and says where to look', async () => {
  const board = await EmulatedBoard.plugIn(everySecond())
  const hub = await startHub({ args: ['--serial', `${board.path}@9600`] })
  const garbled = await hub.until(
    () => hub.quarantined(),
    (list) => list.some(({ code }) => code === 'E_NOT_TEXT'),
  )
  expect(garbled.find(({ code }) => code === 'E_NOT_TEXT')!.remedy).toContain('baud rate')
  expect((await hub.now()).tallies.readings).toBe(0)
})

test('opened in the middle of a line, the rest of that line is no reading', async () => {
  const board = await EmulatedBoard.plugIn(
    buildSketch('serial-board', { INTERVAL_MILLIS: 1000, BAUD_RATE: 9600 }),
    {
      resetOnOpenMs: null,
    },
  )
  // a line takes 0.3 s at this speed: wait for the beginning of one
  for (let { said } = await board.tell(), before = said; said === before; ) ({ said } = await board.tell())
  const hub = await startHub({ args: ['--serial', `${board.path}@9600`] })
  await messages(hub, 2)
  const cut = await hub.quarantined()
  expect(
    cut.map(({ code }) => code).filter((code) => code !== 'E_CHECKSUM' && code !== 'E_LINE_UNREADABLE'),
  ).toEqual([])
  expect(cut.length).toBeLessThanOrEqual(1)
  const { channels } = await hub.directory()
  expect(channels.map(({ channel }) => channel)).not.toContain('c1')
})

test('a lost line: messages wait for `kept`, come again as they were, and then in order with their true times', async () => {
  const board = await EmulatedBoard.plugIn(everySecond(), { resetOnOpenMs: null })
  await board.order('volt 0 1.5', 'light 700')
  const heard = await HeardBoard.on(board, { isKeeping: false })
  const first = await heard.next()
  await board.order('volt 0 3', 'light 900')
  const again = await heard.next()
  expect(again).toMatchObject({ startup: first.startup, message: first.message, signals: first.signals })
  expect(again.seconds!).toBeLessThan(first.seconds! - 1)
  heard.isKeeping = true
  const count = heard.spoken.length
  await heard.next(({ message }) => message === 5)
  const kept = heard.spoken.slice(count)
  expect(kept.map(({ message }) => message)).toEqual([1, 2, 3, 4, 5])
  // sampled a second apart, whenever they were sent
  expect(kept[1]!.seconds! - kept[0]!.seconds!).toBeGreaterThan(0.7)
})

test('a full backlog drops its oldest messages, and every later message says how many', async () => {
  const board = await EmulatedBoard.plugIn(everySecond(), { resetOnOpenMs: null, speed: 20 })
  const heard = await HeardBoard.on(board, { isKeeping: false })
  // 48 fit; the first of them goes with the 49th
  await heard.next(({ message }) => message !== undefined && message > 8)
  await board.order('speed 1')
  heard.isKeeping = true
  const count = heard.spoken.length
  await heard.next(({ signals }) => (signals['dropped'] ?? 0) > 7)
  const sent = heard.spoken.slice(count).filter(({ message }) => message !== undefined)
  const numbers = sent.map(({ message }) => message!)
  expect(numbers).toEqual(numbers.map((_, place) => numbers[0]! + place))
  for (const { message, signals } of sent) expect(signals['dropped'] ?? 0).toBe(Math.max(0, message! - 48))
})

test('a reset starts the next start-up and keeps backlog, interval and age; a loss of power keeps the count only', async () => {
  const board = await EmulatedBoard.plugIn(buildSketch('serial-board'), { resetOnOpenMs: null })
  const heard = await HeardBoard.on(board, { isKeeping: false })
  await heard.next(({ message, startup }) => startup === 1 && message === 1)
  heard.say('every 1')
  heard.say('who')
  expect((await heard.next(({ about }) => about !== undefined)).about).toMatch(/start-up 1; every 1\.000 s/)
  await board.order('reset')
  const old = await heard.next(({ startup }) => startup === 1)
  expect(old.message).toBe(1)
  heard.say('who')
  expect((await heard.next(({ about }) => about !== undefined)).about).toMatch(
    /start-up 2; every 1\.000 s; [1-9]/,
  )
  heard.isKeeping = true
  await heard.next(({ startup, message }) => startup === 2 && message === 1)
  await board.order('lose-power')
  const fresh = await heard.next(({ startup }) => startup === 3)
  expect(fresh).toMatchObject({ message: 1 })
  heard.say('who')
  expect((await heard.next(({ about }) => about !== undefined)).about).toMatch(/start-up 3; every 10\.000 s/)
})

test('a program that runs in a circle is started again by the watchdog, and what it had measured keeps its age', async () => {
  const board = await EmulatedBoard.plugIn(everySecond(), { resetOnOpenMs: null, speed: 10 })
  const heard = await HeardBoard.on(board, { isKeeping: false })
  const first = await heard.next()
  const { resets } = board
  await board.order('wedge')
  await board.says('reset', 3)
  expect(board.resets).toBe(resets + 1)
  const again = await heard.next(({ startup }) => startup !== undefined)
  expect(again).toMatchObject({ startup: first.startup, message: first.message })
  // eight seconds went by before the watchdog bit
  expect(again.seconds!).toBeLessThan(-8)
  heard.isKeeping = true
  await heard.next(({ startup }) => startup === first.startup! + 1)
})

test('between samples the processor sleeps', async () => {
  const board = await EmulatedBoard.plugIn(everySecond(), { resetOnOpenMs: null, speed: 10 })
  const heard = await HeardBoard.on(board)
  await heard.next(({ message }) => message === 5)
  const { asleep } = await board.tell()
  expect(asleep).toBeGreaterThan(0.7)
})

test('words the board does not know, and lines without an end, change nothing', async () => {
  const board = await EmulatedBoard.plugIn(everySecond(), { resetOnOpenMs: null })
  const heard = await HeardBoard.on(board)
  await heard.next()
  heard.say(`sing ${'la'.repeat(200)}`)
  heard.say('whoever')
  heard.say('every')
  heard.say('every -3')
  heard.say('time noon')
  heard.say('kept 1')
  heard.say('every 99999999999')
  const later = await heard.next()
  expect(later.message).toBeGreaterThan(1)
  expect(later.seconds!).toBeLessThan(1)
  heard.say('who')
  expect((await heard.next(({ about }) => about !== undefined)).about).toContain('every 1.000 s')
})

function processTimes(pid: number): Promise<string> {
  return readFile(`/proc/${pid}/stat`, 'utf8')
}

/** User and system time of a process so far; the kernel counts in hundredths of a second. */
function cpuMs(stat: string): number {
  const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ')
  return (Number(fields[11]) + Number(fields[12])) * 10
}
