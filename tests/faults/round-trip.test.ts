import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { beforeAll, describe, expect, test } from 'vitest'
import { temporaryFolder } from '../support/temporary-folder.ts'
import { runTussock } from '../support/tussock-command.ts'

// A class rehearses with every fault on; what its boards say they sent is held against what the hub has stored.
// The class shares no code with the hub's decoders.

interface TruthLine {
  kind?: string
  board: string
  startup: number | null
  message: number | null
  channel: string
  signal: number
  truth: number
  quantity: string | null
  quadrat: string
  fault: string | null
  t: number
  what: string
  bytes: string
}

interface StoredRow {
  board: string
  channel: string
  startup: number | null
  number: number | null
  signal: number
  value: number | null
  flag: number
  t_ms: number
}

let truth: TruthLine[]
let stored: StoredRow[]
let quarantined: { board: string | null; code: string; bytes: Buffer }[]
let csv: string
let integrity: string

beforeAll(async () => {
  const folder = temporaryFolder()
  const args = ['--rehearsal', '--speed', '20', '--seed', '11', '--faults', 'all', '--for', '360']
  const ended = await runTussock('start', ...args, '--data', folder, '--port', '0', '--mqtt-port', '0')
  expect(ended).toMatchObject({ code: 0, stderr: '' })
  const rehearsals = join(folder, 'rehearsals')
  const data = join(rehearsals, readdirSync(rehearsals)[0]!)
  const lines = readFileSync(join(data, 'truth.jsonl'), 'utf8').trim().split('\n')
  truth = lines.map((line) => JSON.parse(line) as TruthLine)
  const database = new Database(join(data, 'readings.sqlite'), { readonly: true })
  stored = database
    .prepare(
      `SELECT board.name AS board, channel.name AS channel, startup, number, signal, value, flag, t_ms
       FROM every_reading AS r JOIN channel ON channel.id = r.channel JOIN board ON board.id = channel.board
       JOIN message ON message.id = r.id / 1024`,
    )
    .all() as StoredRow[]
  quarantined = database.prepare('SELECT board, code, bytes FROM quarantine').all() as typeof quarantined
  integrity = database.pragma('integrity_check', { simple: true }) as string
  database.close()
  csv = (await runTussock('export', 'readings', '--data', data)).stdout
}, 90_000)

const signals = () => truth.filter((line) => line.kind === undefined)
const messageKey = (line: { board: string; startup: number | null }, number: number | null) =>
  `${line.board} ${line.startup} ${number}`
const signalKey = (
  line: { board: string; startup: number | null; channel: string; signal: number },
  number: number | null,
) => `${messageKey(line, number)} ${line.channel} ${line.signal}`
const counted = (keys: string[]) => {
  const counts = new Map<string, number>()
  for (const key of keys) counts.set(key, (counts.get(key) ?? 0) + 1)
  return counts
}

describe('round trip with every fault on', () => {
  test('the rehearsal did what it was asked for: repeats, garbage and unplugged cables among hundreds of messages', () => {
    const kinds = counted(truth.map((line) => line.kind ?? 'signal'))
    expect(kinds.get('acknowledged')).toBeGreaterThan(100)
    for (const kind of ['repeat', 'garbage', 'fault']) expect(kinds.get(kind)).toBeGreaterThan(0)
  })

  test('every signal of an acknowledged message is in the store exactly once, as it was sent', () => {
    const acknowledged = new Set(
      truth.filter((line) => line.kind === 'acknowledged').map((line) => messageKey(line, line.message)),
    )
    const sent = signals().filter((line) => acknowledged.has(messageKey(line, line.message)))
    const inStore = counted(stored.map((row) => signalKey(row, row.number)))
    const missing = sent.filter((line) => !inStore.has(signalKey(line, line.message)))
    // of two boards with one name, the second's message may be in quarantine instead: with the very number it sent
    const clashes = quarantined
      .filter(({ code }) => code === 'E_NAME_CLASH')
      .map(({ bytes }) => bytes.toString())
    const inNeither = missing.filter(
      (line) =>
        !clashes.some((text) => text.includes(`"v":${line.signal}`) && text.includes(`"v":${line.message}`)),
    )
    expect(inNeither).toEqual([])
    for (const line of sent) expect(inStore.get(signalKey(line, line.message)) ?? 1).toBe(1)
  })

  test('nothing is in the store that no board has sent', () => {
    const sent = new Set(signals().map((line) => signalKey(line, line.message)))
    expect(stored.filter((row) => !sent.has(signalKey(row, row.number)))).toEqual([])
  })

  test('plain columns, which are never repeated, are each stored once', () => {
    const columns = signals().filter((line) => line.message === null)
    expect(columns.length).toBeGreaterThan(50)
    const rows = stored.filter((row) => row.number === null)
    expect(counted(rows.map((row) => `${row.board} ${row.channel} ${row.signal}`))).toEqual(
      counted(columns.map((line) => `${line.board} ${line.channel} ${line.signal}`)),
    )
  })

  test('every garbage line is in quarantine once, with its bytes', () => {
    const garbage = counted(truth.filter((line) => line.kind === 'garbage').map((line) => line.bytes))
    const kept = counted(quarantined.map(({ bytes }) => bytes.toString('base64')))
    for (const [bytes, count] of garbage) expect(kept.get(bytes)).toBe(count)
  })

  test('values are what a perfect probe would read, within what such probes can do', () => {
    // common practice for cheap probes (no source): pH 0.1, temperature 0.2 °C, moisture 0.03, wind 0.35 m/s, light 3 %
    const tolerance: Record<string, (truth: number) => number> = {
      soil_ph: () => 0.1,
      soil_temperature: () => 0.2,
      soil_moisture: () => 0.03,
      wind_speed: () => 0.35,
      illuminance: (lux) => Math.max(3, lux * 0.03),
    }
    const rows = new Map(stored.map((row) => [signalKey(row, row.number), row]))
    let compared = 0
    for (const line of signals()) {
      if (line.quantity === null || line.fault !== null || line.message === null) continue
      const row = rows.get(signalKey(line, line.message))
      if (!row || row.flag > 2) continue
      expect(row.value).not.toBeNull()
      expect(Math.abs(row.value! - line.truth)).toBeLessThanOrEqual(tolerance[line.quantity]!(line.truth))
      // 20 times as fast, a second of delay on a busy machine is 20 s; a wrong time is off by hours
      expect(Math.abs(row.t_ms - line.t)).toBeLessThan(20_000)
      compared++
    }
    expect(compared).toBeGreaterThan(300)
  })

  test('a dead clock and a saturated light sensor are flagged, and clean leaves them out', () => {
    const rows = new Map(stored.map((row) => [signalKey(row, row.number), row]))
    for (const fault of ['dead-clock', 'saturated']) {
      const faulty = signals().filter((line) => line.fault === fault)
      expect(faulty.length).toBeGreaterThan(0)
      for (const line of faulty) {
        const row = rows.get(signalKey(line, line.message))
        if (row) expect(row.flag).toBeGreaterThanOrEqual(3)
      }
    }
    const cleanRows = csv.trim().split('\r\n').slice(1)
    expect(cleanRows.length).toBeGreaterThan(300)
    for (const row of cleanRows) expect(['1', '2']).toContain(row.split(',')[9])
  })

  test('the database is in order', () => expect(integrity).toBe('ok'))
})
