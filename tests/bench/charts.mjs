/** A chart of everything, ten million readings in 2000 steps, beside a scan of the readings themselves. */
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import Database from 'better-sqlite3'
import { DATABASE_FILE } from '../../.build/hub/store/open-database.js'
import { SqliteReader } from '../../.build/hub/store/sqlite-reader.js'
import { START_MS } from './class-messages.mjs'
import { fillStore, openWriter, rollAll } from './fill-store.mjs'
import { byTurns, freshFolder, secondsOf } from './measuring.mjs'

const STEPS = 2000
const READINGS = 10_000_000
const DAY_MS = 86_400_000

const SCAN = `
  SELECT CAST((t_ms - @fromMs) / @stepMs AS INTEGER) AS step, count(*), min(value), avg(value), max(value), max(flag)
  FROM reading WHERE channel = @channel AND t_ms >= @fromMs AND t_ms < @toMs GROUP BY step`

/** @param readings  of the channel that is charted */
export async function measureCharts(runs, readings = READINGS) {
  const folder = freshFolder()
  const boards = ['board-0']
  const messages = fillStore(folder, boards, readings, 'temperature')
  const { writer } = openWriter(folder, boards)
  const rollSeconds = await secondsOf(() => rollAll(writer))
  writer.close()
  const reader = new SqliteReader(folder)
  const database = new Database(join(folder, DATABASE_FILE), { readonly: true })
  database.pragma('cache_size = -16000')
  const scan = database.prepare(SCAN)
  const channel = reader.channels().find(({ name }) => name === 'temperature').id
  const endMs = START_MS + messages * 1000
  const spans = {
    everything: START_MS - 1000,
    // the longest for which minutes are read and not hours
    'eighty days': endMs - 80 * DAY_MS,
    day: endMs - DAY_MS,
  }
  const rows = []
  for (const [name, fromMs] of Object.entries(spans)) {
    const span = { channel, fromMs, toMs: endMs, stepMs: Math.ceil((endMs - fromMs) / STEPS) }
    const { chart, raw } = await byTurns(runs, {
      chart: () => secondsOf(() => reader.series(channel, fromMs, endMs, STEPS)),
      raw: () => secondsOf(() => scan.all(span)),
    })
    rows.push({
      what: `chart of ${name} of ${readings.toLocaleString('en')} readings in ${STEPS} steps`,
      unit: 'ms',
      hub: chart.value * 1000,
      limits: [
        ['the readings scanned', raw.value * 1000, ...(name === 'everything' ? [{ atMost: 0.02 }] : [])],
      ],
    })
  }
  rows.push({
    what: 'rolling up',
    unit: 'readings/s',
    hub: messages / rollSeconds,
    limits: [],
  })
  reader.close()
  database.close()
  return rows
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  for (const { what, unit, hub, limits } of await measureCharts(3, Number(process.argv[2] ?? READINGS)))
    console.log(
      what,
      hub.toFixed(1),
      unit,
      ...limits.map(([name, limit]) => `${limit.toFixed(1)} ${name}: 1/${(limit / hub).toFixed(0)}`),
    )
