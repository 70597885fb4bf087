/**
 * How fast the hub is beside what bounds it, both sides in one run: npm run bench [-- PART …]
 * The ratios mean something; the numbers are of this machine and this minute. The table is written to .build/bench.json too
 * (of one part, to .build/bench-PART.json).
 */
import { writeFileSync } from 'node:fs'
import { cpus, loadavg, totalmem } from 'node:os'
import { fileURLToPath } from 'node:url'
import { measureAcknowledged } from './acknowledged.mjs'
import { sqliteVersion } from './bare-tables.mjs'
import { measureCharts } from './charts.mjs'
import { measureClients } from './clients.mjs'
import { measureExport } from './csv-export.mjs'
import { measureDecoding } from './decoding.mjs'
import { measureLatency } from './latency.mjs'
import { measureLoop } from './loop.mjs'
import { measurePage } from './page.mjs'
import { measureParquet } from './parquet.mjs'
import { measureRecalibrating } from './recalibrating.mjs'
import { measureReviewing } from './reviewing.mjs'
import { measureHundredMillion, measureScale } from './scale.mjs'
import { measureStarting } from './starting.mjs'
import { measureWritePath } from './write-path.mjs'

const RUNS = 3
/** Each gives rows: what was measured, its unit, the hub's number, and beside it `[name, number, aim?]`. */
const parts = {
  decoding: measureDecoding,
  writing: measureWritePath,
  acknowledged: measureAcknowledged,
  export: measureExport,
  loop: measureLoop,
  charts: measureCharts,
  starting: measureStarting,
  parquet: measureParquet,
  latency: measureLatency,
  clients: async (runs) => (await measureClients(runs)).rows,
  page: async (runs) => (await measurePage(runs)).rows,
  recalibrating: measureRecalibrating,
  reviewing: measureReviewing,
}

/** only where they are named: they take long */
const longParts = { scale: measureScale, 'hundred-million': measureHundredMillion }

const wanted = process.argv.slice(2)
const all = { ...parts, ...longParts }
const unknown = wanted.find((part) => !Object.hasOwn(all, part))
if (unknown !== undefined) {
  console.error(`There is no part "${unknown}". Parts: ${Object.keys(all).join(', ')}`)
  process.exit(2)
}
const begun = performance.now()
const rows = []
for (const [name, measure] of Object.entries(wanted.length === 0 ? parts : all)) {
  if (wanted.length > 0 && !wanted.includes(name)) continue
  console.error(`measuring ${name} …`)
  for (const row of await measure(RUNS)) rows.push({ part: name, ...row })
}

const [{ model }] = cpus()
const NOT_JUDGED = { ratio: null, aim: '', met: '' }
const machine = {
  cores: cpus().length,
  processor: model.trim(),
  gigabytes: Number((totalmem() / 2 ** 30).toFixed(1)),
  node: process.version,
  sqlite: sqliteVersion(),
  load: loadavg()[0],
}
const lines = rows.flatMap(({ part, what, unit, hub, limits }) =>
  (limits.length === 0 ? [['', null]] : limits).map(([beside, number, aim]) => ({
    part,
    what,
    unit,
    hub,
    beside,
    number,
    ...(number === null ? NOT_JUDGED : judged(hub / number, aim)),
  })),
)
writeFileSync(
  fileURLToPath(
    new URL(`../../.build/bench${wanted.length === 1 ? `-${wanted[0]}` : ''}.json`, import.meta.url),
  ),
  `${JSON.stringify({ at: new Date().toISOString(), machine, runs: RUNS, lines }, null, 1)}\n`,
)
print(lines)
console.log(
  `${machine.cores} cores (${machine.processor}), ${machine.gigabytes} GB, Node ${machine.node}, SQLite ${machine.sqlite}; medians of ${RUNS}; ${((performance.now() - begun) / 1000).toFixed(0)} s; load before the end ${machine.load.toFixed(1)}`,
)

/** @param aim `{ atLeast }` or `{ atMost }`, of the ratio; none where there is nothing to aim for */
function judged(ratio, aim) {
  if (!aim) return { ratio, aim: '', met: '' }
  const [text, isMet] =
    aim.atLeast === undefined
      ? [`≤ ${aim.atMost}`, ratio <= aim.atMost]
      : [`≥ ${aim.atLeast}`, ratio >= aim.atLeast]
  return { ratio, aim: text, met: isMet ? 'met' : 'not met' }
}

function print(all) {
  const head = ['measured', 'unit', 'hub', 'beside', 'that', 'hub ÷ that', 'aim', '']
  const table = all.map(({ what, unit, hub, beside, number, ratio, aim, met }, place) => {
    const isSame = place > 0 && all[place - 1].what === what
    return [
      isSame ? '' : what,
      isSame ? '' : unit,
      isSame ? '' : shown(hub),
      beside,
      number === null ? '' : shown(number),
      number === null ? '' : ratio.toPrecision(2),
      aim,
      met,
    ]
  })
  table.unshift(head)
  const widths = head.map((_, column) => Math.max(...table.map((row) => row[column].length)))
  const isNumber = [false, false, true, false, true, true, false, false]
  for (const row of table) {
    const cells = row.map((cell, column) =>
      isNumber[column] ? cell.padStart(widths[column]) : cell.padEnd(widths[column]),
    )
    console.log(cells.join('  ').trimEnd())
  }
}

function shown(number) {
  if (number >= 1000) return Math.round(number).toLocaleString('en')
  return number.toFixed(number >= 10 ? 0 : 2)
}
