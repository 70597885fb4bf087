import { join } from 'node:path'
import Database from 'better-sqlite3'
import { SqliteWriter } from '../../.build/hub/store/sqlite-writer.js'
import { SurveyKeeper } from '../../.build/hub/survey/keep-surveys.js'
import { boardNames, START_MS, surveyOf } from './class-messages.mjs'
import { startHub } from './hub-process.mjs'
import { byTurns, freshFolder, memoryOf } from './measuring.mjs'

const BOARDS = boardNames(20)
const CHANNELS = 5
const MESSAGES_EACH = 100_000

/** Ten million readings at 1 Hz of twenty boards, put in by SQL: what is measured is opening them. */
function fill(folder) {
  const writer = new SqliteWriter(folder)
  new SurveyKeeper(writer, () => START_MS).save(surveyOf(BOARDS), 'bench')
  writer.close()
  const database = new Database(join(folder, 'readings.sqlite'))
  database.pragma('synchronous = OFF')
  const steps = 'WITH RECURSIVE step (n) AS (SELECT 0 UNION ALL SELECT n + 1 FROM step LIMIT @messages)'
  database.transaction(() => {
    for (const [board, name] of BOARDS.entries()) {
      database
        .prepare('INSERT INTO board (id, name, first_heard_ms) VALUES (?, ?, ?)')
        .run(board + 1, name, START_MS)
      const parameters = {
        messages: MESSAGES_EACH,
        board: board + 1,
        start: START_MS,
        first: board * MESSAGES_EACH + 1,
      }
      database
        .prepare(
          `INSERT INTO message (id, board, source, arrived_ms, startup, number, first_ms, last_ms, time_origin, bytes)
           SELECT CAST(@first + n AS INTEGER), @board, 'mqtt:bench', CAST(@start + n * 1000 AS INTEGER), 7, n,
             CAST(@start + n * 1000 AS INTEGER), CAST(@start + n * 1000 AS INTEGER), 'board seconds', x'00'
           FROM (${steps} SELECT n FROM step)`,
        )
        .run(parameters)
      for (let place = 0; place < CHANNELS; place++) {
        const channel = board * CHANNELS + place + 1
        database.prepare('INSERT INTO channel VALUES (?, ?, ?, ?)').run(channel, board + 1, `c${place}`, 'mV')
        database
          .prepare(
            `INSERT INTO reading
             SELECT @channel, CAST(@start + n * 1000 AS INTEGER), CAST((@first + n) * 1024 + @place AS INTEGER),
               100 + n % 50, NULL, NULL, 2, NULL, NULL
             FROM (${steps} SELECT n FROM step)`,
          )
          .run({ messages: MESSAGES_EACH, channel, start: START_MS, first: parameters.first, place })
      }
    }
    const all = BOARDS.length * MESSAGES_EACH
    database
      .prepare('INSERT INTO numbered SELECT board, startup, number, id FROM message ORDER BY 1, 2, 3')
      .run()
    database.prepare("UPDATE hub SET value = ? WHERE key = 'numbered-until'").run(String(all))
    database.prepare("INSERT INTO tally VALUES ('readings', ?), ('messages', ?)").run(all * CHANNELS, all)
  })()
  database.close()
}

async function start(folder) {
  const begun = performance.now()
  const hub = await startHub(folder)
  const seconds = (performance.now() - begun) / 1000
  const first = performance.now()
  const response = await fetch(`${hub.address}/api/directory`)
  await response.arrayBuffer()
  const directory = (performance.now() - first) / 1000
  const { highest } = memoryOf(hub.pid)
  await hub.stop()
  return { seconds, directory, highest }
}

/** From the command to a hub that listens, with ten million readings and with none. */
export async function measureStarting(runs) {
  const [full, empty] = [freshFolder(), freshFolder()]
  fill(full)
  const measured = await byTurns(runs, { full: () => start(full), empty: () => start(empty) })
  return [
    {
      what: 'start to listening, 10 million readings',
      unit: 's',
      hub: measured.full.seconds,
      limits: [['with none', measured.empty.seconds, { atMost: 2 }]],
    },
    {
      what: 'first answer about all channels',
      unit: 's',
      hub: measured.full.directory,
      limits: [['with none', measured.empty.directory]],
    },
    {
      what: 'memory, highest, just started',
      unit: 'MB',
      hub: measured.full.highest,
      limits: [['allowed', 200, { atMost: 1 }]],
    },
  ]
}
