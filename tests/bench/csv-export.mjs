import { spawn } from 'node:child_process'
import { get } from 'node:http'
import { join } from 'node:path'
import { appraiseWith } from '../../.build/hub/intake/appraise.js'
import { readFrame } from '../../.build/hub/intake/read-frame.js'
import { reviewWith } from '../../.build/hub/quality/review.js'
import { SqliteWriter } from '../../.build/hub/store/sqlite-writer.js'
import { SurveyKeeper } from '../../.build/hub/survey/keep-surveys.js'
import { boardNames, framesOf, START_MS, surveyOf } from './class-messages.mjs'
import { rollAll } from './fill-store.mjs'
import { startHub } from './hub-process.mjs'
import { byTurns, freshFolder, memoryOf } from './measuring.mjs'

const BOARDS = boardNames(20)
const MESSAGES = 10_000

/** 20 boards, a million readings, as a hub has them that had a quiet minute: reviewed, and rolled up for charts. */
export function fillForExport(folder) {
  const writer = new SqliteWriter(folder)
  const keeper = new SurveyKeeper(writer, () => START_MS)
  keeper.save(surveyOf(BOARDS), 'bench')
  const appraise = appraiseWith(keeper.timelines)
  for (let message = 0; message < MESSAGES; message += 100) {
    const frames = framesOf(BOARDS, message, message + 100)
    writer.commit(
      frames.flatMap((frame) => readFrame(frame, () => undefined)),
      appraise,
    )
    if (writer.isSealDue) writer.seal()
  }
  writer.seal()
  while (writer.reviewSome(reviewWith(keeper.timelines)) !== null);
  rollAll(writer)
  writer.close()
}

/** Lines a second that come out of `stream`, from `begun` on. */
async function countLines(stream, begun) {
  let lines = 0
  for await (const chunk of stream)
    for (let at = chunk.indexOf(0x0a); at !== -1; at = chunk.indexOf(0x0a, at + 1)) lines++
  return lines / ((performance.now() - begun) / 1000)
}

/** The same columns with the same times, as the database's own program writes them. */
const SAME_COLUMNS = `
  SELECT strftime('%Y-%m-%dT%H:%M:%S', t_ms / 1000, 'unixepoch') || printf('.%03dZ', t_ms % 1000) AS time,
    'bench' AS survey, 'T1' AS transect, board.name AS quadrat, 1.0 AS distance_m, 'soil_ph' AS quantity, 'direct' AS method,
    printf('%.9g', value) AS value, 'pH' AS unit, printf('%.3g', uncertainty) AS uncertainty, flag,
    'probe' AS probe, coalesce(calibration.id, '') AS calibration, printf('%.15g', signal) AS signal, channel.unit AS signal_unit,
    board.name AS board, channel.name AS channel
  FROM reading JOIN channel ON channel.id = reading.channel JOIN board ON board.id = channel.board
    LEFT JOIN calibration ON calibration.ref = reading.calibration
  WHERE value IS NOT NULL AND flag IN (1, 2)`

/** Rows a second of the clean download over HTTP, and what it does to the hub's memory. */
export async function measureExport(runs) {
  const folder = freshFolder()
  fillForExport(folder)
  const hub = await startHub(folder)
  const before = memoryOf(hub.pid).now
  const { download, program } = await byTurns(runs, {
    download: async () => {
      const begun = performance.now()
      const response = await new Promise((resolve) => get(`${hub.address}/api/export/readings.csv`, resolve))
      return countLines(response, begun)
    },
    program: () => {
      const begun = performance.now()
      const child = spawn('sqlite3', ['-readonly', '-csv', join(folder, 'readings.sqlite'), SAME_COLUMNS])
      return countLines(child.stdout, begun)
    },
  })
  const after = memoryOf(hub.pid)
  await hub.stop()
  return [
    {
      what: 'clean CSV over HTTP',
      unit: 'rows/s',
      hub: download.value,
      limits: [['sqlite3 -csv, same columns', program.value, { atLeast: 2 }]],
    },
    {
      what: `memory after ${runs} downloads`,
      unit: 'MB',
      hub: after.now,
      limits: [
        ['before', before],
        ['highest allowed', 200, { atMost: 1 }],
      ],
    },
  ]
}
