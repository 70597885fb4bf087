import { spawnSync } from 'node:child_process'
import { openSync } from 'node:fs'
import { createRequire } from 'node:module'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { SqliteReader } from '../../.build/hub/store/sqlite-reader.js'
import { Study } from '../../.build/hub/study/study.js'
import { Timelines } from '../../.build/hub/survey/timeline.js'
import { fillForExport } from './csv-export.mjs'
import { byTurns, freshFolder, secondsOf } from './measuring.mjs'

const command = fileURLToPath(new URL('../../.build/hub/cli/tussock.js', import.meta.url))

/** A column store's engine, where it is installed: it is 70 MB, so it is no dependency. */
function columnEngine() {
  const folder = process.env.DUCKDB_FOLDER
  if (folder === undefined) return null
  return createRequire(join(folder, 'package.json'))('@duckdb/node-api').DuckDBInstance
}

const SAME_SUMMARY = (file) => `
  SELECT quadrat, quantity, count(*)::INTEGER AS n, avg(value) AS mean, stddev_samp(value) AS sd, median(value) AS median,
    quantile_cont(value, 0.25) AS q25, quantile_cont(value, 0.75) AS q75, min(value) AS low, max(value) AS high
  FROM '${file}' WHERE quadrat IS NOT NULL GROUP BY ALL ORDER BY ALL`

/** Summaries of every quadrat and quantity, here from the store, there from the exported Parquet by DuckDB. */
export async function measureParquet(runs) {
  const Engine = columnEngine()
  if (Engine === null) {
    console.error(
      'left out: it needs DuckDB. npm install --prefix SOMEWHERE @duckdb/node-api, then DUCKDB_FOLDER=SOMEWHERE npm run bench -- parquet',
    )
    return []
  }
  const folder = freshFolder()
  fillForExport(folder)
  const file = join(folder, 'readings.parquet')
  const exporting = () => {
    const { status, stderr } = spawnSync(process.execPath, [command, 'export', 'parquet', '--data', folder], {
      stdio: ['ignore', openSync(file, 'w'), 'pipe'],
      encoding: 'utf8',
    })
    if (status !== 0) throw new Error(stderr)
  }
  const seconds = await secondsOf(exporting)
  const connection = await (await Engine.create(':memory:')).connect()
  const reader = new SqliteReader(folder)
  const survey = reader.surveys()[0]
  let [ours, theirs] = [[], []]
  const { hub, engine } = await byTurns(runs, {
    hub: () =>
      secondsOf(() => {
        ours = new Study(reader, new Timelines(reader.surveys(), []), survey).summary({
          window: 'all',
          withHydrogenIons: false,
        }).summaries
      }),
    engine: () =>
      secondsOf(async () => {
        theirs = (await connection.runAndReadAll(SAME_SUMMARY(file))).getRowObjects()
      }),
  })
  reader.close()
  for (const row of theirs) {
    const same = ours.find(({ quadrat, quantity }) => quadrat === row.quadrat && quantity === row.quantity)
    if (Math.abs(same.mean - row.mean) > 1e-9 * Math.abs(row.mean))
      throw new Error(`${row.quadrat}: not the same mean`)
  }
  const readings = theirs.reduce((sum, { n }) => sum + n, 0)
  return [
    {
      what: 'summaries of all quadrats',
      unit: 'readings/s',
      hub: readings / hub.value,
      limits: [['DuckDB over the Parquet', readings / engine.value]],
    },
    {
      what: 'export as Parquet, the whole command',
      unit: 'readings/s',
      hub: readings / seconds,
      limits: [['DuckDB reading and summarising it', readings / engine.value]],
    },
  ]
}
