// npm run quality:score — how well the quality tests find simulated faults, of which the truth is known.
// First every test on series made for it (seeded, tests/hub/quality), then the whole hub on a rehearsal's faults:
// real bytes through real ports, held against the class's own truth file. Bounded: about two minutes.
import { spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import Database from 'better-sqlite3'

const root = fileURLToPath(new URL('..', import.meta.url))
const folder = mkdtempSync(join(tmpdir(), 'tussock-score-'))
const share = (part) => (Number.isFinite(part) ? part.toFixed(3) : '–').padStart(9)

function simulatedSeries() {
  const path = join(folder, 'scores.jsonl')
  const vitest = join(root, 'node_modules/vitest/vitest.mjs')
  const args = [
    'run',
    '--config',
    'tests/vitest.config.ts',
    'tests/hub/quality',
    '--reporter',
    'dot',
    '--outputFile.json',
    join(folder, 'x.json'),
  ]
  const run = spawnSync(process.execPath, [vitest, ...args], {
    cwd: root,
    env: { ...process.env, TUSSOCK_SCORES: path },
    stdio: ['ignore', 'ignore', 'inherit'],
  })
  if (run.status !== 0 || !existsSync(path)) throw new Error('the quality tests did not pass: run npm test')
  console.log(`${'Simulated series'.padEnd(78)} precision   recall  faulty readings`)
  for (const line of readFileSync(path, 'utf8').trim().split('\n').sort()) {
    const { test, precision, recall, faulty } = JSON.parse(line)
    console.log(
      `${test.slice(0, 78).padEnd(78)}${share(precision)}${share(recall)}${String(faulty).padStart(12)}`,
    )
  }
}

function rehearsal() {
  const faults = ['dead-clock', 'dry-bulb', 'saturated', 'cracked-bulb']
  const args = [
    'start',
    '--rehearsal',
    '--speed',
    '60',
    '--seed',
    '11',
    '--faults',
    faults.join(','),
    '--for',
    '3600',
  ]
  const run = spawnSync(
    process.execPath,
    [join(root, '.build/hub/cli/tussock.js'), ...args, '--data', folder, '--port', '0', '--mqtt-port', '0'],
    { stdio: ['ignore', 'ignore', 'inherit'] },
  )
  if (run.status !== 0) throw new Error('the rehearsal did not end well')
  const data = join(folder, 'rehearsals', readdirSync(join(folder, 'rehearsals'))[0])
  const database = new Database(join(data, 'readings.sqlite'), { readonly: true })
  const stored = new Map()
  for (const row of database
    .prepare(
      `SELECT board.name || ' ' || startup || ' ' || number || ' ' || channel.name AS key, flag, why
     FROM every_reading AS r JOIN channel ON channel.id = r.channel JOIN board ON board.id = channel.board
     JOIN message ON message.id = r.id / 1024 WHERE number IS NOT NULL`,
    )
    .iterate())
    stored.set(row.key, row)
  const counts = new Map()
  const count = (fault) => counts.get(fault) ?? counts.set(fault, { n: 0, flagged: 0 }).get(fault)
  for (const line of readFileSync(join(data, 'truth.jsonl'), 'utf8').trim().split('\n')) {
    const { kind, board, startup, message, channel, quantity, fault } = JSON.parse(line)
    if (kind !== undefined || quantity === null) continue
    const row = stored.get(`${board} ${startup} ${message} ${channel}`)
    if (!row) continue
    const of = count(fault ?? 'nothing wrong')
    of.n++
    if (row.flag > 2) of.flagged++
  }
  database.close()
  console.log(`\n${'Whole hub, one rehearsed hour'.padEnd(30)} readings   flagged     share`)
  for (const [fault, { n, flagged }] of counts)
    console.log(
      `${fault.padEnd(30)}${String(n).padStart(9)}${String(flagged).padStart(10)}${share(flagged / n)}`,
    )
}

try {
  simulatedSeries()
  rehearsal()
} finally {
  rmSync(folder, { recursive: true, force: true })
}
