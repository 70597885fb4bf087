import { readdirSync, readFileSync } from 'node:fs'
import { afterEach, describe, expect, it } from 'vitest'
import { SurveyFile } from '../../hub/contract/survey.ts'
import { type Line, listenOn, spawnClass, startBroker } from './listening-hub.ts'

interface Received {
  board: string
  bytes: Buffer
}

const running: (() => Promise<void> | void)[] = []
afterEach(async () => {
  for (const end of running.splice(0).reverse()) await end()
})

/** A hub of nothing but ears: keeps what arrives, and answers as the protocol asks. */
async function listenToClass(args: readonly string[]) {
  const received: Received[] = []
  const links: string[] = []
  const ports = new Map<string, ReturnType<typeof listenOn>>()
  const broker = await startBroker((topic, payload) => {
    const [, board = '', last] = topic.split('/')
    if (last === 'pack') received.push({ board, bytes: payload })
    if (last === 'link') links.push(`${board} ${payload}`)
  })
  const group = spawnClass(['--broker', broker.url(), ...args], (line) => {
    if (line['kind'] !== 'port') return
    const board = String(line['board'])
    ports.set(
      board,
      listenOn(String(line['path']), Number(line['baudRate']), (bytes) => {
        received.push({ board, bytes: Buffer.from(bytes) })
        const pack = packOf(bytes)
        if (pack) ports.get(board)?.say(`kept ${pack.startup} ${pack.message}`)
      }),
    )
  })
  running.push(
    () => broker.stop(),
    async () => {
      group.child.kill('SIGTERM')
      await group.ended
      for (const port of ports.values()) port.close()
      group.clear()
    },
  )
  return { received, links, ports, broker, group }
}

interface Pack {
  startup: number
  message: number
  signals: Map<string, number>
}

/** What this line says, read without any of the house's code; null when it is no pack. */
function packOf(bytes: Buffer): Pack | null {
  let records: { n: string; v: number }[]
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes)
    const [, body = text, trailer] = /^(.*)#([0-9A-F]{4})$/s.exec(text) ?? []
    if (trailer && crcOf(Buffer.from(body)) !== Number.parseInt(trailer, 16)) return null
    records = JSON.parse(body)
  } catch {
    return null
  }
  const numberIn = (name: string) => records.find(({ n }) => n === name)?.v ?? Number.NaN
  const signals = records.filter(({ n, v }) => v !== undefined && n !== 'startup' && n !== 'message')
  return {
    startup: numberIn('startup'),
    message: numberIn('message'),
    signals: new Map(signals.map(({ n, v }) => [n, v])),
  }
}

/** CRC-16/IBM-3740, a byte at a time. */
function crcOf(bytes: Buffer): number {
  return bytes.reduce((crc, byte) => {
    let mixed = (crc >> 8) ^ byte
    mixed ^= mixed >> 4
    return ((crc << 8) ^ (mixed << 12) ^ (mixed << 5) ^ mixed) & 0xffff
  }, 0xffff)
}

const key = (board: unknown, startup: unknown, message: unknown) => `${board} ${startup} ${message}`
const unique = (texts: string[]) => [...new Set(texts)].sort()
const ofKind = (truth: Line[], kind: string | undefined) => truth.filter((line) => line['kind'] === kind)

function expectTruthOf(received: Received[], truth: Line[]): void {
  const packs = received.flatMap(({ board, bytes }) => {
    const pack = packOf(bytes)
    return pack ? [{ board, ...pack }] : []
  })
  const acknowledged = ofKind(truth, 'acknowledged').map((line) =>
    key(line['board'], line['startup'], line['message']),
  )
  expect(new Set(acknowledged).size).toBe(acknowledged.length)
  expect(unique(acknowledged)).toEqual(
    unique(packs.map(({ board, startup, message }) => key(board, startup, message))),
  )
  const signals = new Map(
    ofKind(truth, undefined).map((line) => [
      `${key(line['board'], line['startup'], line['message'])} ${line['channel']}`,
      line['signal'],
    ]),
  )
  for (const { board, startup, message, signals: sent } of packs) {
    for (const [channel, value] of sent) {
      expect(signals.get(`${key(board, startup, message)} ${channel}`)).toBe(value)
    }
  }
}

describe('a class as a process', () => {
  it('tells survey, ports, ready and done; what was acknowledged is what arrived', async () => {
    const { received, links, group } = await listenToClass([
      ...['--seed', '7', '--speed', '20', '--start', '1780000000000', '--interval', '4', '--for', '60'],
    ])
    const done = await group.whenTold('done')
    expect(await group.ended).toBe(0)

    expect(group.told.map((line) => line['kind'])).toEqual([
      'survey',
      'port',
      'port',
      'port',
      'ready',
      'done',
    ])
    const survey = SurveyFile.parse(group.told[0]?.['survey'])
    const truth = group.truth()
    expect(truth[0]).toMatchObject({ kind: 'scenario', seed: 7, speed: 20, start: 1_780_000_000_000 })
    expectTruthOf(received, truth)
    // seven numbered boards, a message every 4 s for 60 s
    expect(done).toMatchObject({ acknowledged: 7 * 15, unacknowledged: 0, garbage: 0, dropped: 0 })
    expect(unique(links)).toEqual(
      unique(
        survey.boards
          .filter((_, index) => ![0, 3, 6].includes(index))
          .flatMap(({ name }) => [`${name} up`, `${name} lost`]),
      ),
    )
    for (const line of ofKind(truth, undefined)) {
      expect((Number(line['t']) - 1_780_000_000_000) % 4000).toBe(0)
    }
  })

  it('prints columns whose numbers are those of the truth, decimal comma and all', async () => {
    const { received, group } = await listenToClass([
      ...['--seed', '9', '--speed', '20', '--interval', '4', '--for', '60'],
    ])
    await group.ended
    const truth = group.truth()
    const sketch = 'nettle-4'
    const lines = received
      .filter(({ board }) => board === sketch)
      .map(({ bytes }) => bytes.toString('latin1'))
    const mine = ofKind(truth, undefined).filter((line) => line['board'] === sketch)
    expect(lines.length).toBeGreaterThan(8)
    expect(mine.length).toBe(5 * lines.length)
    lines.forEach((line, at) => {
      const cells = line.split(';').map((cell) => Number(cell.replace(',', '.')))
      const expected = ['moisture', 'light', 'ph', 'temperature', 'wind'].map(
        (channel) => mine.slice(5 * at, 5 * at + 5).find((one) => one['channel'] === channel)?.['signal'],
      )
      expect(cells.slice(1)).toEqual(expected)
    })
  })

  it('sends its faults, each with its mark in the truth, and loses no message by them', async () => {
    const { received, ports, group } = await listenToClass([
      ...['--seed', '7', '--speed', '20', '--interval', '4', '--for', '160', '--faults', 'all'],
    ])
    await group.whenTold('ready')
    const cutPort = ports.get('fern-1')
    await group.ended
    const truth = group.truth()
    expectTruthOf(received, truth)

    const told = new Set(ofKind(group.told, 'fault').map((line) => line['fault']))
    expect([...told].sort()).toEqual(
      ['dead-clock', 'dry-bulb', 'garbage', 'repeat', 'saturated', 'two-names', 'unplug'].sort(),
    )
    expect(ofKind(group.told, 'port').filter((line) => line['board'] === 'fern-1')).toHaveLength(2)
    expect(group.told.at(-1)).toMatchObject({ kind: 'done', unacknowledged: 0, dropped: 0 })

    // the cable was pulled mid-line: what arrived is the beginning that the truth tells of
    await cutPort?.closed
    const cut = Buffer.from(String(ofKind(truth, 'cut')[0]?.['bytes']), 'base64')
    expect(cut.subarray(0, cutPort?.held().length).equals(cutPort!.held())).toBe(true)

    // every piece of garbage arrived as it was sent, and is no message
    const garbage = ofKind(truth, 'garbage')
    expect(garbage.length).toBeGreaterThan(5)
    for (const { board, bytes } of garbage) {
      const sent = Buffer.from(String(bytes), 'base64')
      expect(received.some((one) => one.board === board && one.bytes.equals(sent))).toBe(true)
    }

    // repeats: some byte for byte, some with other times
    const repeats = ofKind(truth, 'repeat').filter((line) => line['fault'] === 'repeat')
    expect(repeats.length).toBeGreaterThan(3)
    const copies = repeats.map((line) =>
      received.filter(({ board, bytes }) => {
        const pack = packOf(bytes)
        return (
          board === line['board'] && pack?.startup === line['startup'] && pack?.message === line['message']
        )
      }),
    )
    expect(copies.every((those) => those.length >= 2)).toBe(true)
    const variety = copies.map((those) => new Set(those.map(({ bytes }) => bytes.toString('latin1'))).size)
    expect(variety).toContain(1)
    expect(Math.max(...variety)).toBeGreaterThan(1)

    // the dead clock: its times are far from the truth
    const clocked = received
      .filter(({ board }) => board === 'moss-2')
      .map(({ bytes }) => bytes.toString('latin1'))
    const stamps = clocked.flatMap((text) => /"bt":(-?[\d.]+)/.exec(text)?.[1] ?? []).map(Number)
    expect(stamps.length).toBeGreaterThan(20)
    expect(stamps.every((seconds) => Math.abs(seconds - Date.now() / 1000) > 300 * 86_400)).toBe(true)

    // two boards under one name number their own start-ups
    const startups = received.flatMap(({ board, bytes }) =>
      board === 'thyme-8' ? (packOf(bytes)?.startup ?? []) : [],
    )
    expect(new Set(startups).size).toBe(2)
  })

  it('keeps its messages while the broker is away, and sends them when it is back', async () => {
    const { received, broker, group } = await listenToClass([
      ...['--seed', '3', '--speed', '20', '--interval', '4', '--for', '120'],
    ])
    await group.whenTold('ready')
    await broker.stop()
    await new Promise((resolve) => setTimeout(resolve, 2000))
    await broker.start()
    const done = await group.whenTold('done')
    await group.ended
    expect(done).toMatchObject({ acknowledged: 7 * 30, unacknowledged: 0 })
    expectTruthOf(received, group.truth())
  })

  it('answers who and obeys every, on cable and air', async () => {
    const { received, ports, broker, group } = await listenToClass(['--seed', '3', '--interval', '0.5'])
    await group.whenTold('ready')
    await expect.poll(() => new Set(received.map(({ board }) => board)).size, { timeout: 10_000 }).toBe(8)
    ports.get('fern-1')?.say('who')
    broker.ask('ivy-3', 'who')
    const abouts = () => received.filter(({ bytes }) => bytes.includes('"about"')).map(({ board }) => board)
    await expect.poll(() => unique(abouts()), { timeout: 5000 }).toEqual(['fern-1', 'ivy-3'])
    broker.ask('ivy-3', 'every 3600')
    ports.get('fern-1')?.say('every 3600')
    await new Promise((resolve) => setTimeout(resolve, 1000))
    const count = (name: string) => received.filter(({ board }) => board === name).length
    const [onCable, onAir, other] = [count('fern-1'), count('ivy-3'), count('sorrel-6')]
    await expect.poll(() => count('sorrel-6'), { timeout: 10_000 }).toBeGreaterThan(other + 3)
    expect([count('fern-1'), count('ivy-3')]).toEqual([onCable, onAir])
    await expect.poll(() => ofKind(group.truth(), 'about').length, { timeout: 5000 }).toBe(2)
  })

  it.each(['standard input closes', 'SIGTERM', 'SIGKILL'])(
    'leaves no process behind when %s',
    async (way) => {
      const { ports, group } = await listenToClass(['--seed', '3', '--interval', '0.5'])
      await group.whenTold('ready')
      const pid = group.child.pid!
      expect(keepersOf(pid)).toBeGreaterThanOrEqual(3)
      if (way === 'standard input closes') group.child.stdin?.end()
      else group.child.kill(way as NodeJS.Signals)
      expect(await group.ended).toBe(way === 'SIGKILL' ? null : 0)
      await Promise.all([...ports.values()].map(({ closed }) => closed))
      await expect.poll(() => keepersOf(pid), { timeout: 10_000 }).toBe(0)
      expect(group.truth()[0]).toMatchObject({ kind: 'scenario' })
    },
  )

  it('refuses an option it cannot follow, and says which', async () => {
    const group = spawnClass(['--faults', 'rain'])
    expect(await group.ended).toBe(2)
    expect(group.told).toEqual([])
    group.clear()
  })
})

/** Processes whose command line names the rehearsal they look after. */
function keepersOf(rehearsalPid: number): number {
  return processNumbers().filter((pid) => commandLine(pid).includes(`kill -0 ${rehearsalPid} `)).length
}

function processNumbers(): number[] {
  return readdirSync('/proc').map(Number).filter(Number.isInteger)
}

function commandLine(pid: number): string {
  try {
    return readFileSync(`/proc/${pid}/cmdline`, 'latin1')
  } catch {
    return ''
  }
}
