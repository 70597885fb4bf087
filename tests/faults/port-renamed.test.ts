import { symlinkSync, unlinkSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import Database from 'better-sqlite3'
import { expect, test } from 'vitest'
import { appraiseWith } from '../../hub/intake/appraise.ts'
import { Intake } from '../../hub/intake/intake.ts'
import { nameIn } from '../../hub/intake/name-in.ts'
import { KeptPorts } from '../../hub/sources/kept-ports.ts'
import { listPorts, type PortFound, type PortList } from '../../hub/sources/list-ports.ts'
import { exampleSurvey } from '../support/example-survey.ts'
import { LONG_MS, tellCounts, times } from '../support/fault-counts.ts'
import { holdAgainst, keptMessages } from '../support/kept-messages.ts'
import { NumberedBoard } from '../support/numbered-cable-board.ts'
import { ReceivedFrames } from '../support/received-frames.ts'
import { CabledBoard, SerialBench } from '../support/serial-bench.ts'
import { SmallHub } from '../support/small-hub.ts'
import { temporaryFolder } from '../support/temporary-folder.ts'

const baudRate = 115_200
/** nothing was known before, and nobody remembers */
const unremembered = { nameIn, moved: () => {}, identified: () => {}, identityBefore: () => null }
const TURNS = times(3)

/** A folder of devices, as /dev is: boards are plugged in under any name, and pulled out. */
class Devices {
  readonly folder = temporaryFolder()
  readonly #there = new Map<string, { board: CabledBoard; usb: Partial<PortFound> }>()

  path(name: string): string {
    return join(this.folder, name)
  }

  async plugIn(name: string, usb: Partial<PortFound> = {}): Promise<CabledBoard> {
    const board = await CabledBoard.plugIn()
    symlinkSync(board.path, this.path(name))
    this.#there.set(name, { board, usb })
    return board
  }

  async unplug(name: string): Promise<void> {
    unlinkSync(this.path(name))
    await this.#there.get(name)!.board.unplug()
    this.#there.delete(name)
  }

  /** by name alone, as on a machine without udevadm */
  readonly byName = (): Promise<PortList> =>
    listPorts(this.folder, () => Promise.reject(Object.assign(new Error('none'), { code: 'ENOENT' })))

  /** with what each says of itself over USB */
  readonly byUsb = async (): Promise<PortList> => ({
    ports: [...this.#there].map(([name, { usb }]) => ({ path: this.path(name), ...usb })),
    trouble: null,
  })
}

/** Waits for something that no event tells of, taking turns with the event loop. */
async function until(isSo: () => boolean, meanwhile: () => void = () => {}): Promise<void> {
  while (!isSo()) {
    meanwhile()
    await pause(5)
  }
}

/** Sources, intake and store, without pages. */
function storingHub(list: () => Promise<PortList>, folder = temporaryFolder()) {
  const hub = new SmallHub(folder)
  const intake = new Intake(hub.writer, folder, appraiseWith(hub.keeper.timelines), () => undefined, {
    committed: () => {},
    isWatched: () => false,
    trouble: (text) => {
      throw new Error(String(text))
    },
  })
  const bench = new SerialBench(
    intake,
    {},
    {
      list,
      nameIn,
      moved: (from, to) => ports.moved(from, to),
      identified: (path, board, identity) => ports.identified(path, board, identity),
      identityBefore: (path, board) => ports.identityBefore(path, board),
    },
  )
  const ports = new KeptPorts(bench.source, hub.writer, hub.keeper)
  const remembered = () =>
    (JSON.parse(hub.writer.setting('serial-ports') ?? '[]') as { path: string }[]).map(({ path }) => path)
  return { folder, hub, bench, ports, remembered }
}

test(
  `a board pulled out in the middle of a line ${TURNS} times, and back under another name each time, is found by its own answer; every message is stored once`,
  async () => {
    const devices = new Devices()
    const { folder, hub, bench, ports, remembered } = storingHub(devices.byName)
    const board = new NumberedBoard('sedge-1')
    // one that is there all the time and nobody's business
    const printer = await devices.plugIn('ttyUSB90')
    let name = 'ttyUSB0'
    board.plugInto(await devices.plugIn(name))
    ports.open({ path: devices.path(name), baudRate })
    await bench.until(devices.path(name), 'open')
    for (let turn = 1; turn <= TURNS; turn++) {
      board.send(5)
      await until(
        () => board.acknowledged.size === board.sent,
        () => board.listen(),
      )
      board.sendHalf()
      await pause(20)
      await devices.unplug(name)
      board.send(2) // into nowhere
      // a stranger comes first, and talks as much
      const stranger = new NumberedBoard(`rush-${turn}`)
      const strangerName = `ttyACM${turn}`
      const other = await devices.plugIn(strangerName)
      stranger.plugInto(other)
      stranger.send(3)
      const next = `ttyUSB${turn}`
      board.plugInto(await devices.plugIn(next))
      const listen = () => {
        board.listen()
        stranger.listen()
      }
      await until(() => bench.source.statuses().some(({ path }) => path === devices.path(next)), listen)
      await until(() => board.acknowledged.size === board.sent, listen)
      const [status, ...more] = bench.source.statuses()
      expect(more).toEqual([])
      expect(status).toMatchObject({ path: devices.path(next), state: 'open', trouble: null })
      expect(status!.note).toBe(
        `This board was on ${devices.path(name)}; it came back here and was recognised by its own answer.`,
      )
      expect(remembered()).toEqual([devices.path(next)])
      expect(stranger.acknowledged.size).toBe(0)
      await devices.unplug(strangerName)
      name = next
    }
    expect(printer.heard).toEqual([])
    const halves = hub.reader.quarantine(1e9, 1000).filter(({ message }) => /broke off/.test(message))
    expect(halves).toHaveLength(TURNS)
    const held = holdAgainst(keptMessages(folder), [board])
    expect(held).toEqual({ acknowledged: board.sent, stored: board.sent, lost: 0, doubled: 0 })
    expect(keptMessages(folder).byBoard.size).toBe(1)
    tellCounts({
      what: 'serial port gone mid-line, back under another name',
      times: TURNS,
      sent: board.sent,
      ...held,
    })
    bench.source.closeAll()
    hub.close()
  },
  LONG_MS,
)

const usb = (serialNumber: string) => ({ usbId: '2341:0043', serialNumber })

test('two boards whose sketches print nothing but columns, unplugged and swapped, are known by their USB serial numbers', async () => {
  const devices = new Devices()
  const frames = new ReceivedFrames()
  const moved: string[] = []
  const finding = {
    ...unremembered,
    list: devices.byUsb,
    moved: (from: string, to: string) => moved.push(`${from} → ${to}`),
  }
  const bench = new SerialBench(frames, {}, finding)
  const [first, second] = ['ttyUSB0', 'ttyUSB1'] as const
  await devices.plugIn(first, usb('A'))
  await devices.plugIn(second, usb('B'))
  for (const [name, board] of [
    [first, 'fern-1'],
    [second, 'moss-2'],
  ] as const) {
    bench.source.open({ path: devices.path(name), baudRate }, board)
    await bench.until(devices.path(name), 'open')
  }
  // what is known of a port is asked for when it opens
  await pause(20)
  for (const name of [first, second]) {
    await devices.unplug(name)
    await bench.until(devices.path(name), 'gone')
  }
  const fern = await devices.plugIn(second, usb('A'))
  const isAt = (name: string) => () =>
    bench.source.statuses().some((port) => port.path === devices.path(name) && port.state === 'open')
  await until(isAt(second))
  const moss = await devices.plugIn(first, usb('B'))
  await until(isAt(first))
  // later than the first moment after opening, in which a line may be cut
  await pause(120)
  fern.say('1,2\n')
  moss.say('3,4\n')
  const got = await frames.count(2)
  const byBoard = got.map(({ board, bytes }) => `${board}: ${Buffer.from(bytes).toString()}`)
  expect(byBoard.sort()).toEqual(['fern-1: 1,2', 'moss-2: 3,4'])
  expect(bench.source.statuses()).toHaveLength(2)
  for (const { note } of bench.source.statuses()) expect(note).toContain('the serial number of its USB side')
  expect(moved).toHaveLength(2)
  // a survey that is saved again names the ports as they were, and means the boards
  const before = bench.states.length
  bench.source.open({ path: devices.path(first), baudRate }, 'fern-1')
  bench.source.open({ path: devices.path(second), baudRate }, 'moss-2')
  await pause(50)
  expect(bench.states).toHaveLength(before)
})

test('a device of the same make with another serial number is not taken for the one that has gone', async () => {
  const devices = new Devices()
  const finding = { ...unremembered, list: devices.byUsb }
  const bench = new SerialBench(new ReceivedFrames(), {}, finding)
  await devices.plugIn('ttyUSB0', usb('A'))
  bench.source.open({ path: devices.path('ttyUSB0'), baudRate }, 'fern-1')
  await bench.until(devices.path('ttyUSB0'), 'open')
  await pause(20)
  await devices.unplug('ttyUSB0')
  await bench.until(devices.path('ttyUSB0'), 'gone')
  const spare = await devices.plugIn('ttyUSB1', usb('C'))
  const failures = () => bench.states.filter((state) => state.endsWith(' gone')).length
  const before = failures()
  await until(() => failures() > before + 3)
  expect(spare.heard).toEqual([])
  expect(bench.source.statuses()).toMatchObject([
    { path: devices.path('ttyUSB0'), state: 'gone', note: null },
  ])
  // under the old name it is what a person has put in its place
  symlinkSync(spare.path, devices.path('ttyUSB0'))
  await bench.until(devices.path('ttyUSB0'), 'open')
})

test('a serial number that two devices share tells neither of them from the other', async () => {
  const devices = new Devices()
  const moved: string[] = []
  const finding = { ...unremembered, list: devices.byUsb, moved: (from: string) => moved.push(from) }
  const bench = new SerialBench(new ReceivedFrames(), {}, finding)
  await devices.plugIn('ttyUSB0', usb('0001'))
  await devices.plugIn('ttyUSB1', usb('0001'))
  bench.source.open({ path: devices.path('ttyUSB0'), baudRate }, 'fern-1')
  await bench.until(devices.path('ttyUSB0'), 'open')
  await pause(20)
  await devices.unplug('ttyUSB0')
  const failures = () => bench.states.filter((state) => state.endsWith(' gone')).length
  await until(() => failures() > 3)
  expect(moved).toEqual([])
})

test('boards that were swapped while the hub was off are read where they are now, whether a survey or a person named their ports', async () => {
  const devices = new Devices()
  const folder = temporaryFolder()
  const survey = exampleSurvey()
  survey.boards = [
    { name: 'fern-1', serialPort: { path: devices.path('ttyUSB0'), baudRate } },
    { name: 'moss-2', serialPort: { path: devices.path('ttyUSB1'), baudRate } },
  ]
  const open = ({ bench }: ReturnType<typeof storingHub>) =>
    until(() => bench.source.statuses().filter(({ state }) => state === 'open').length === 3)
  const first = storingHub(devices.byUsb, folder)
  first.hub.keeper.save(survey, 'test')
  await devices.plugIn('ttyUSB0', usb('A'))
  await devices.plugIn('ttyUSB1', usb('B'))
  await devices.plugIn('ttyUSB2', usb('C'))
  first.ports.open({ path: devices.path('ttyUSB2'), baudRate })
  first.ports.openAll([])
  await open(first)
  await until(
    () => Object.keys(JSON.parse(first.hub.writer.setting('serial-identities') ?? '{}')).length === 3,
  )
  first.bench.source.closeAll()
  first.hub.close()
  for (const name of ['ttyUSB0', 'ttyUSB1', 'ttyUSB2']) await devices.unplug(name)

  const fern = await devices.plugIn('ttyUSB1', usb('A'))
  const moss = await devices.plugIn('ttyUSB0', usb('B'))
  await devices.plugIn('ttyUSB5', usb('C'))
  const second = storingHub(devices.byUsb, folder)
  second.ports.openAll([])
  await open(second)
  expect(second.remembered()).toEqual([devices.path('ttyUSB5')])
  const paths = second.bench.source.statuses().map(({ path }) => path)
  expect(paths.sort()).toEqual(['ttyUSB0', 'ttyUSB1', 'ttyUSB5'].map((name) => devices.path(name)))
  await pause(120)
  fern.say('1\n')
  moss.say('2\n')
  await until(() => second.hub.reader.tallies().readings === 2)
  const database = new Database(join(folder, 'readings.sqlite'), { readonly: true })
  const kept = database
    .prepare(
      `SELECT board.name || ': ' || signal FROM every_reading AS r JOIN channel ON channel.id = r.channel
       JOIN board ON board.id = channel.board ORDER BY 1`,
    )
    .pluck()
    .all()
  database.close()
  expect(kept).toEqual(['fern-1: 1.0', 'moss-2: 2.0'])
  second.bench.source.closeAll()
  second.hub.close()
})
