// npm run soak [-- --minutes 20] [--times 4]
// Runs the fault tests that count, again and again and each of them longer than the checks do, until the time is over, and
// adds up what they counted. Ends with 1 when anything was lost or doubled, or a test failed.

import { spawn } from 'node:child_process'
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'

const { values } = parseArgs({
  options: { minutes: { type: 'string', default: '20' }, times: { type: 'string', default: '4' } },
})
const untilMs = Date.now() + Number(values.minutes) * 60_000
const here = fileURLToPath(new URL('.', import.meta.url))
const root = join(here, '../..')
const folder = mkdtempSync(join(tmpdir(), 'tussock-soak-'))
const countsFile = join(folder, 'counts.jsonl')

/** kills first, as they are what most depends on chance */
const counting = readdirSync(here)
  .filter(
    (name) => name.endsWith('.test.ts') && readFileSync(join(here, name), 'utf8').includes('tellCounts'),
  )
  .sort((one, other) => Number(other.startsWith('kill')) - Number(one.startsWith('kill')))

/** Runs one file of tests. @returns whether all of it passed */
function runTests(name) {
  const args = ['vitest', 'run', '--config', 'tests/vitest.config.ts', join('tests/faults', name)]
  const child = spawn('npx', ['--no-install', ...args, '--reporter', 'dot'], {
    cwd: root,
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, TUSSOCK_TIMES: values.times, TUSSOCK_COUNTS: countsFile },
  })
  let said = ''
  for (const stream of [child.stdout, child.stderr])
    stream.setEncoding('utf8').on('data', (text) => {
      said += text
    })
  return new Promise((resolve) => {
    child.once('close', (code) => {
      if (code !== 0) console.error(said)
      resolve(code === 0)
    })
  })
}

const failed = []
for (let place = 0; Date.now() < untilMs; place = (place + 1) % counting.length) {
  const name = counting[place]
  const begunMs = Date.now()
  const isSound = await runTests(name)
  if (!isSound) failed.push(name)
  console.error(`${isSound ? 'ok    ' : 'FAILED'} ${name}, ${Math.round((Date.now() - begunMs) / 1000)} s`)
}

const COUNTED = ['times', 'sent', 'acknowledged', 'stored', 'doubled', 'lost']
const sums = new Map()
const lines = existsSync(countsFile) ? readFileSync(countsFile, 'utf8').trim().split('\n') : []
for (const line of lines) {
  const counts = JSON.parse(line)
  const sum = sums.get(counts.what) ?? { ...Object.fromEntries(COUNTED.map((key) => [key, 0])), megabytes: 0 }
  for (const key of COUNTED) sum[key] += counts[key]
  sum.megabytes = Math.max(sum.megabytes, counts.megabytes ?? 0)
  sums.set(counts.what, sum)
}
rmSync(folder, { recursive: true, force: true })

const width = Math.max(4, ...[...sums.keys()].map((what) => what.length))
const row = (what, cells) =>
  console.log(`${what.padEnd(width)} ${cells.map((cell) => String(cell).padStart(12)).join(' ')}`)
row('what', [...COUNTED, 'most MB'])
for (const [what, sum] of sums) row(what, [...COUNTED.map((key) => sum[key]), sum.megabytes || ''])
const wrong = [...sums.values()].some(({ lost, doubled }) => lost > 0 || doubled > 0)
for (const name of new Set(failed)) console.error(`${name} failed.`)
process.exitCode = wrong || failed.length > 0 || sums.size === 0 ? 1 : 0
