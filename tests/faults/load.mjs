/**
 * Two hundred boards at 1 Hz with five channels each, and thirty phones that watch, for an hour of their day, at ten times
 * its pace: node tests/faults/load.mjs [--boards N] [--phones N] [--minutes OF THEIR DAY] [--pace N]
 * Ends with 1 when a reading is lost or doubled, a phone misses one, or memory grows. Build first.
 */
import { mkdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import Database from 'better-sqlite3'
import { boardNames, READINGS_PER_MESSAGE, surveyOf } from '../bench/class-messages.mjs'
import { startHub, startProcess } from '../bench/hub-process.mjs'
import { freshFolder, median, memoryOf } from '../bench/measuring.mjs'

const { values } = parseArgs({
  options: {
    boards: { type: 'string', default: '200' },
    phones: { type: 'string', default: '30' },
    minutes: { type: 'string', default: '60' },
    pace: { type: 'string', default: '10' },
  },
})
const [boards, phones, minutes, pace] = ['boards', 'phones', 'minutes', 'pace'].map((name) =>
  Number(values[name]),
)
const messages = minutes * 60
const bench = (name) => fileURLToPath(new URL(`../bench/${name}`, import.meta.url))

const folder = freshFolder()
const probes = join(folder, 'probes')
mkdirSync(probes)
process.env.LOOP_PROBE = probes
process.env.NODE_OPTIONS = `--import=${bench('loop-probe.mjs')}`
const hub = await startHub(join(folder, 'data'))
delete process.env.NODE_OPTIONS
const saved = await fetch(`${hub.address}/api/surveys/bench`, {
  method: 'PUT',
  headers: { 'content-type': 'application/json' },
  body: JSON.stringify(surveyOf(boardNames(boards))),
})
if (!saved.ok) throw new Error((await saved.text()).slice(0, 300))
const watching = await startProcess(
  process.execPath,
  [bench('phones.mjs'), hub.address, String(phones)],
  /ready/,
)
const memory = []
const sampling = setInterval(
  () => memory.push({ s: performance.now() / 1000, mb: memoryOf(hub.pid).now }),
  1000,
)
const begun = performance.now()
const { match } = await startProcess(
  process.execPath,
  [bench('paced-boards.mjs'), ...[hub.mqttPort, boards, messages, 1000 / pace].map(String)],
  /done (.*)\n/,
)
clearInterval(sampling)
const seconds = (performance.now() - begun) / 1000
const boardsSaid = JSON.parse(match[1])
await new Promise((resolve) => setTimeout(resolve, 1000))
const phonesSaid = await new Promise((resolve) => {
  let printed = ''
  watching.child.stdout.on('data', (text) => {
    printed += text
    const found = /phones (.*)\n/.exec(printed)
    if (found) resolve(JSON.parse(found[1]))
  })
  watching.child.stdin.write('stop\n')
})
await hub.stop()

const database = new Database(join(folder, 'data', 'readings.sqlite'), { readonly: true })
const stored = database.prepare('SELECT count(*) FROM every_reading').pluck().get()
const different = database
  .prepare('SELECT count(*) FROM (SELECT DISTINCT board, number FROM message)')
  .pluck()
  .get()
database.close()

const delays = (thread) =>
  readFileSync(join(probes, `${thread}.jsonl`), 'utf8')
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line))
const p99 = (thread) => median(delays(thread).map((second) => second.p99))
/** The first quarter is for warming up. */
const settled = memory.slice(Math.floor(memory.length / 4))
const slope = slopeOf(settled)
const noise = median(settled.map(({ mb }) => Math.abs(mb - median(settled.map((sample) => sample.mb)))))
const grows = slope * (settled.at(-1).s - settled[0].s)
const wanted = boards * messages * READINGS_PER_MESSAGE
const missed = phonesSaid.map((phone) => wanted - phone.readings)

console.log(`${boards} boards, ${phones} phones, ${minutes} minutes of their day in ${seconds.toFixed(0)} s`)
console.log(`messages sent ${boardsSaid.sent}, acknowledged ${boardsSaid.acknowledged}, stored ${different}`)
console.log(`readings wanted ${wanted}, stored ${stored}`)
console.log(
  `readings a phone missed: at most ${Math.max(...missed)}; twice: ${Math.max(...phonesSaid.map(({ twice }) => twice))}; told to fetch anew: ${Math.max(...phonesSaid.map(({ anew }) => anew))}`,
)
console.log(
  `acknowledged after, ms: median ${boardsSaid.p50.toFixed(1)}, p99 ${boardsSaid.p99.toFixed(1)}, longest ${boardsSaid.max.toFixed(0)}`,
)
console.log(
  `delay of the event loop, p99 of a typical second, ms: main ${p99('main').toFixed(1)}, page ${p99('page').toFixed(1)}`,
)
console.log(
  `memory, MB: ${settled[0].mb.toFixed(0)} after a quarter, ${settled.at(-1).mb.toFixed(0)} at the end, highest ${Math.max(...memory.map(({ mb }) => mb)).toFixed(0)}; the line through it rises ${grows.toFixed(1)} (noise ${noise.toFixed(1)})`,
)
const isWell =
  stored === wanted &&
  different === boards * messages &&
  boardsSaid.acknowledged === boardsSaid.sent &&
  phonesSaid.every(({ readings, twice, anew }) => twice === 0 && (readings === wanted || anew > 0)) &&
  grows < Math.max(20, 3 * noise)
process.exit(isWell ? 0 : 1)

/** Least squares, MB a second. */
function slopeOf(samples) {
  const mean = (numbers) => numbers.reduce((sum, number) => sum + number, 0) / numbers.length
  const [s, mb] = [mean(samples.map((sample) => sample.s)), mean(samples.map((sample) => sample.mb))]
  const over = samples.reduce((sum, sample) => sum + (sample.s - s) * (sample.mb - mb), 0)
  return over / samples.reduce((sum, sample) => sum + (sample.s - s) ** 2, 0)
}
