import { expect, test } from 'vitest'
import { MAX_FRAME_BYTES } from '../../../hub/sources/source.ts'
import { ReceivedFrames } from '../../support/received-frames.ts'
import { CabledBoard, SerialBench } from '../../support/serial-bench.ts'

const pack = (message: number) =>
  `[{"bn":"sedge-1/","n":"startup","v":7},{"n":"message","v":${message}},{"n":"ph","v":84}]`

async function openBoard(frames: ReceivedFrames) {
  const board = await CabledBoard.plugIn()
  const bench = new SerialBench(frames)
  bench.source.open({ path: board.path, baudRate: 115_200 }, 'sedge-1')
  await bench.until(board.path, 'open')
  return { board, bench }
}

test('lines are frames of their port and board, without LF, CR LF or empty lines', async () => {
  const frames = new ReceivedFrames()
  const { board, bench } = await openBoard(frames)
  const before = Date.now()
  board.say(`${pack(1)}\r\n\r\n\n${pack(2)}\n`)
  const [first, second] = await frames.count(2)
  expect(frames.texts()).toEqual([pack(1), pack(2)])
  for (const frame of [first!, second!]) {
    expect(frame).toMatchObject({ source: `serial:${board.path}`, format: 'line', board: 'sedge-1' })
    expect(frame.arrivedMs).toBeGreaterThanOrEqual(before)
  }
  expect(bench.status(board.path)).toMatchObject({ state: 'open', trouble: null })
  expect(bench.status(board.path).lastHeardMs).toBeGreaterThanOrEqual(before)
})

test('every byte value but the line’s end reaches the frame as it was sent', async () => {
  const frames = new ReceivedFrames()
  const { board } = await openBoard(frames)
  const bytes = Buffer.from(Array.from({ length: 256 }, (_, byte) => byte).filter((byte) => byte !== 10))
  board.say(Buffer.concat([Buffer.from('['), bytes, Buffer.from(']\n')]))
  const [frame] = await frames.count(1)
  expect(Buffer.from(frame!.bytes).subarray(1, -1).equals(bytes)).toBe(true)
})

test('the board is told "kept" once its message is durable, and not before', async () => {
  const frames = new ReceivedFrames(() => null)
  const { board, bench } = await openBoard(frames)
  board.say(`${pack(41)}\n${pack(42)}\n`)
  await frames.count(2)
  bench.source.say(board.path, 'not yet')
  await board.hears('not yet')
  expect(board.heard.filter((line) => line.startsWith('kept'))).toEqual([])
  frames.all[0]!.settle(null, () => ['kept 7 41'])
  frames.all[1]!.settle(new Error('disk full'), () => ['kept 7 42'])
  await board.hears('kept 7 41')
  bench.source.say(board.path, 'last')
  await board.hears('last')
  expect(board.heard).not.toContain('kept 7 42')
})

test('after opening, the board is asked who it is and told the time', async () => {
  const { board } = await openBoard(new ReceivedFrames())
  await board.hears('who')
  const said = await board.hears(/^time \d+\.\d{3}$/)
  expect(Math.abs(Number(said.slice(5)) - Date.now() / 1000)).toBeLessThan(10)
})

test('a 1 MB line comes through in marked pieces, all its bytes in order, and the next line is read', async () => {
  const frames = new ReceivedFrames()
  const { board } = await openBoard(frames)
  const long = Buffer.alloc(1_000_000, '0123456789abcdefghijklmnopqrstuvwxyz')
  board.say(Buffer.concat([long, Buffer.from(`\n${pack(1)}\n`)]))
  const pieces = Math.ceil((long.length + 1) / MAX_FRAME_BYTES)
  const received = await frames.count(pieces + 1)
  expect(frames.texts().at(-1)).toBe(pack(1))
  const marked = received.slice(0, -1)
  expect(new Set(marked.map(({ fault }) => fault?.code))).toEqual(new Set(['E_LINE_TOO_LONG']))
  expect(Buffer.concat(marked.map(({ bytes }) => bytes)).toString('latin1')).toBe(`${long}\n`)
})

test('a line that breaks off when the cable is pulled is kept as what it is, and never read as a whole one', async () => {
  const frames = new ReceivedFrames()
  const { board, bench } = await openBoard(frames)
  board.say(`${pack(1)}\n512,23.1,88`)
  await frames.count(1)
  await bench.until(board.path, 'open')
  await board.unplug()
  const [, rest] = await frames.count(2)
  expect(Buffer.from(rest!.bytes).toString()).toBe('512,23.1,88')
  expect(rest!.fault?.code).toBe('E_LINE_UNREADABLE')
  expect(rest!.fault?.message).toContain('broke off')
})

test('the end of a line that had begun before the port was opened is not taken for a line of numbers', async () => {
  const frames = new ReceivedFrames()
  const { board } = await openBoard(frames)
  // the board was printing 512,23.1,880 when the hub came in after the 5
  board.say('12,23.1,880\n512,23.2,880\n')
  const [cut, whole] = await frames.count(2)
  expect(cut!.fault?.code).toBe('E_LINE_UNREADABLE')
  expect(whole!.fault).toBeUndefined()
})

test('a first line that proves itself whole, by its brackets or its checksum, is read', async () => {
  for (const line of [pack(1), '512,23.1,880#602D']) {
    const frames = new ReceivedFrames()
    const { board } = await openBoard(frames)
    board.say(`${line}\n`)
    const [frame] = await frames.count(1)
    expect(frame!.fault).toBeUndefined()
  }
})
