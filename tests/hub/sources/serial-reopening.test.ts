import { expect, test } from 'vitest'
import { ReceivedFrames } from '../../support/received-frames.ts'
import { CabledBoard, DeviceName, SerialBench } from '../../support/serial-bench.ts'

const baudRate = 115_200

test('an unplugged board is said to be gone, and is read again once it is back under the same name', async () => {
  const frames = new ReceivedFrames()
  const bench = new SerialBench(frames)
  const device = new DeviceName()
  const first = await CabledBoard.plugIn()
  device.pointAt(first)
  bench.source.open({ path: device.path, baudRate }, 'sedge-1')
  await bench.until(device.path, 'open')
  first.say('["before"]\n')
  await frames.count(1)
  device.pointAt(null)
  await first.unplug()
  const gone = await bench.until(device.path, 'gone')
  expect(gone.trouble).toMatch(/^E_PORT_GONE: Board "sedge-1" on .* stopped answering|^E_PORT_MISSING: /)
  const second = await CabledBoard.plugIn()
  device.pointAt(second)
  await bench.until(device.path, 'open')
  expect(bench.status(device.path).trouble).toBeNull()
  second.say('["after"]\n')
  await frames.count(2)
  expect(frames.texts()).toEqual(['["before"]', '["after"]'])
})

test('a port that does not exist is tried again, ever more rarely, and opened once it is there', async () => {
  const bench = new SerialBench(new ReceivedFrames())
  const device = new DeviceName()
  bench.source.open({ path: device.path, baudRate }, null)
  const missing = await bench.until(device.path, 'gone')
  expect(missing.trouble).toMatch(/^E_PORT_MISSING: There is no port .* at the moment\. Plug the board in/)
  // each failed attempt is one more change; the waits are 20, 40, 80, 80 … ms
  const begun = performance.now()
  const failures = () => bench.states.filter((state) => state.endsWith(' gone')).length
  while (failures() < 5) await bench.nextChange()
  expect(performance.now() - begun).toBeGreaterThan(20 + 40 + 80 + 80 - 20)
  device.pointAt(await CabledBoard.plugIn())
  expect((await bench.until(device.path, 'open')).trouble).toBeNull()
})

test('a port that another program holds is said to be busy, and taken once it is let go', async () => {
  const board = await CabledBoard.plugIn()
  const holder = new SerialBench(new ReceivedFrames())
  holder.source.open({ path: board.path, baudRate }, null)
  await holder.until(board.path, 'open')
  const late = new SerialBench(new ReceivedFrames())
  late.source.open({ path: board.path, baudRate }, null)
  const busy = await late.until(board.path, 'gone')
  expect(busy.trouble).toMatch(/^E_PORT_BUSY: .* is in use by another program\. Close the other program/)
  holder.source.close(board.path)
  await late.until(board.path, 'open')
})

test('a port named twice, on the command line and by a survey, does not lock itself out', async () => {
  const frames = new ReceivedFrames()
  const board = await CabledBoard.plugIn()
  const bench = new SerialBench(frames, { firstRetryMs: 20 })
  bench.source.open({ path: board.path, baudRate }, null)
  bench.source.open({ path: board.path, baudRate }, 'sedge-1')
  await bench.until(board.path, 'open')
  expect(bench.source.statuses()).toHaveLength(1)
  board.say('["x"]\n')
  const [frame] = await frames.count(1)
  expect(frame!.board).toBe('sedge-1')
})

test('the same port at another speed is opened afresh', async () => {
  const board = await CabledBoard.plugIn()
  const bench = new SerialBench(new ReceivedFrames())
  bench.source.open({ path: board.path, baudRate }, null)
  await bench.until(board.path, 'open')
  bench.source.open({ path: board.path, baudRate: 9600 }, null)
  expect((await bench.until(board.path, 'open')).baudRate).toBe(9600)
})

test('a closed port is given back, forgotten, and not opened again', async () => {
  const board = await CabledBoard.plugIn()
  const bench = new SerialBench(new ReceivedFrames())
  bench.source.open({ path: board.path, baudRate }, null)
  await bench.until(board.path, 'open')
  expect(bench.source.close(board.path)).toBe(true)
  expect(bench.source.close(board.path)).toBe(false)
  expect(bench.source.statuses()).toEqual([])
  expect(bench.source.say(board.path, 'who')).toBe(false)
  const other = new SerialBench(new ReceivedFrames())
  other.source.open({ path: board.path, baudRate }, null)
  await other.until(board.path, 'open')
})

test('a port closed while it is being opened is given back as well', async () => {
  const board = await CabledBoard.plugIn()
  const bench = new SerialBench(new ReceivedFrames())
  for (let turn = 0; turn < 5; turn++) {
    bench.source.open({ path: board.path, baudRate }, null)
    bench.source.close(board.path)
  }
  const other = new SerialBench(new ReceivedFrames())
  other.source.open({ path: board.path, baudRate }, null)
  await other.until(board.path, 'open')
})

test('a board that stalls is said to be silent, and open again with its next byte', async () => {
  const frames = new ReceivedFrames()
  const board = await CabledBoard.plugIn()
  const bench = new SerialBench(frames, { silenceMs: 60 })
  bench.source.open({ path: board.path, baudRate }, null)
  await bench.until(board.path, 'open')
  const silent = await bench.until(board.path, 'silent')
  expect(silent.trouble).toMatch(
    /^E_PORT_SILENT: .* is open, but nothing has come for .* Press reset on the board/,
  )
  board.say('["awake"]\n')
  await bench.until(board.path, 'open')
  expect(bench.status(board.path).trouble).toBeNull()
  expect(await frames.count(1)).toHaveLength(1)
})

test('a board that stays silent has its port opened afresh, which resets most boards', async () => {
  const board = await CabledBoard.plugIn()
  const bench = new SerialBench(new ReceivedFrames(), { silenceMs: 20, reopenAfterSpans: 2 })
  bench.source.open({ path: board.path, baudRate }, null)
  await bench.until(board.path, 'silent')
  await bench.until(board.path, 'open')
  await bench.until(board.path, 'silent')
  expect(bench.status(board.path).trouble).toContain('nothing has come')
})

test('a board that samples rarely is not called silent between two of its samples', async () => {
  const board = await CabledBoard.plugIn()
  const quick = await CabledBoard.plugIn()
  const bench = new SerialBench(new ReceivedFrames(), { silenceMs: 30 })
  bench.source.open({ path: board.path, baudRate }, 'slow', 3600)
  bench.source.open({ path: quick.path, baudRate }, 'quick', 0.001)
  await bench.until(quick.path, 'silent')
  expect(bench.status(board.path).state).toBe('open')
})

test('a pseudo-terminal that hung up is not opened again by its number, which may be a person’s own terminal by then; asked for, it is', async () => {
  const bench = new SerialBench(new ReceivedFrames())
  const board = await CabledBoard.plugIn()
  const { path } = board
  expect(path).toMatch(/^\/dev\/pts\/\d+$/)
  bench.source.open({ path, baudRate }, 'sedge-1')
  await bench.until(path, 'open')
  await board.unplug()
  await bench.until(path, 'gone')
  const changes = bench.states.length
  // ten times the first wait before a retry
  await new Promise((resolve) => setTimeout(resolve, 200))
  expect(bench.states).toHaveLength(changes)
  bench.source.open({ path, baudRate }, 'sedge-1')
  await bench.nextChange()
  expect(bench.states.length).toBeGreaterThan(changes)
})
