/**
 * How fast the hub is beside what bounds it, both sides in one run: node tests/bench/end-to-end.mjs [part …]
 * Build first (npm run build:hub). The ratios mean something; the numbers are of this machine and this minute.
 */
import { cpus, totalmem } from 'node:os'
import { measureAcknowledged } from './acknowledged.mjs'
import { sqliteVersion } from './bare-tables.mjs'
import { measureExport } from './csv-export.mjs'
import { measureDecoding } from './decoding.mjs'
import { measureLatency } from './latency.mjs'
import { measureReviewing } from './reviewing.mjs'
import { measureWritePath } from './write-path.mjs'

const RUNS = 3
const wanted = process.argv.slice(2)
const isWanted = (part) => wanted.length === 0 || wanted.includes(part)
const begun = performance.now()
const rows = []
const notes = []

if (isWanted('decoding')) rows.push(...(await measureDecoding(RUNS)))
if (isWanted('writing')) rows.push(...(await measureWritePath(RUNS)))
if (isWanted('acknowledged')) {
  const { rows: measured, megabytes } = await measureAcknowledged(RUNS)
  rows.push(...measured)
  notes.push(`memory of the hub, highest while storing: ${megabytes.toFixed(0)} MB`)
}
if (isWanted('export')) {
  const { rows: measured, megabytes } = await measureExport(RUNS)
  rows.push(...measured)
  const [before, after, highest] = ['before', 'after', 'highest'].map((when) => megabytes[when].toFixed(0))
  notes.push(
    `memory of the hub: ${before} MB before ${RUNS} downloads, ${after} MB after, highest ${highest} MB`,
  )
}
if (isWanted('reviewing')) rows.push(...(await measureReviewing()))
if (isWanted('latency')) rows.push(...(await measureLatency()))

function shown(number) {
  if (number >= 1000) return Math.round(number).toLocaleString('en')
  return number.toFixed(number >= 10 ? 0 : 2)
}

const table = rows.flatMap(({ what, unit, hub, limits }) =>
  limits.map(([limit, number], place) => [
    place === 0 ? what : '',
    place === 0 ? unit : '',
    place === 0 ? shown(hub) : '',
    limit,
    shown(number),
    (hub / number).toFixed(2),
  ]),
)
table.unshift(['measured', 'unit', 'hub', 'beside', 'that', 'hub ÷ that'])
const widths = table[0].map((_, column) => Math.max(...table.map((row) => row[column].length)))
const isNumber = [false, false, true, false, true, true]
for (const row of table) {
  const cells = row.map((cell, column) =>
    isNumber[column] ? cell.padStart(widths[column]) : cell.padEnd(widths[column]),
  )
  console.log(cells.join('  ').trimEnd())
}
for (const note of notes) console.log(note)
const [{ model }] = cpus()
const gigabytes = (totalmem() / 2 ** 30).toFixed(1)
console.log(
  `${cpus().length} cores (${model.trim()}), ${gigabytes} GB, Node ${process.version}, SQLite ${sqliteVersion()}; medians of ${RUNS}; ${((performance.now() - begun) / 1000).toFixed(0)} s`,
)
