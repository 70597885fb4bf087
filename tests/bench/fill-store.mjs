import { join } from 'node:path'
import Database from 'better-sqlite3'
import { appraiseWith } from '../../.build/hub/intake/appraise.js'
import { readFrame } from '../../.build/hub/intake/read-frame.js'
import { DATABASE_FILE } from '../../.build/hub/store/open-database.js'
import { SqliteWriter } from '../../.build/hub/store/sqlite-writer.js'
import { SurveyKeeper } from '../../.build/hub/survey/keep-surveys.js'
import { framesOf, READINGS_PER_MESSAGE, START_MS, surveyOf } from './class-messages.mjs'

/** What calibration makes of a signal, near enough for a chart: values that are measured anew are made by the hub itself. */
const VALUES = {
  ph: '7 - (84 + k % 50 / 10.0 - 6) / 56.0',
  temperature: '10.5 + k % 30 / 10.0',
  wind: 'CASE k % 9 WHEN 0 THEN 0 ELSE 0.3 + 0.66 * (k % 9) END',
  light: 'NULL',
  moisture: 'NULL',
}
const SIGNALS = {
  ph: '84 + k % 50 / 10.0',
  temperature: '11 + k % 30 / 10.0',
  wind: 'k % 9',
  light: '8000 + k % 700',
  moisture: '500 + k % 80',
}
/** as long as a message of this class is */
const BYTES = 290

/** Opens the writer on a folder, with a survey in which every board is placed. */
export function openWriter(folder, boards) {
  const writer = new SqliteWriter(folder)
  const keeper = new SurveyKeeper(writer, () => START_MS)
  keeper.save(surveyOf(boards), 'bench')
  return { writer, keeper }
}

export function commitMessages(writer, keeper, boards, from, to) {
  const frames = framesOf(boards, from, to)
  writer.commit(
    frames.flatMap((frame) => readFrame(frame, () => undefined)),
    appraiseWith(keeper.timelines),
  )
  if (writer.isSealDue) writer.seal()
}

/**
 * Fills a new data folder with about so many readings of some boards, one message a second of each. The first message
 * goes through the hub, the rest straight into the tables as sealing would have left them.
 * @param only  fills this channel alone, and leaves out the messages, which a chart does not look at
 * @returns readings of one channel
 */
export function fillStore(folder, boards, readings, only = null) {
  const { writer, keeper } = openWriter(folder, boards)
  commitMessages(writer, keeper, boards, 0, 1)
  writer.close()
  const messages = Math.round(readings / (only ? 1 : READINGS_PER_MESSAGE) / boards.length)
  const database = new Database(join(folder, DATABASE_FILE))
  database.pragma('synchronous = OFF')
  database.pragma('cache_size = -200000')
  const K = `WITH RECURSIVE count(k) AS (VALUES (1) UNION ALL SELECT k + 1 FROM count WHERE k + 1 < ${messages})`
  const first = database.prepare('SELECT id FROM board ORDER BY id').pluck().all()
  const idOf = `${boards.length} * k + board.id - ${first[0]} + 1`
  const addMessages = () =>
    database.exec(
      `${K} INSERT INTO message (id, board, source, arrived_ms, startup, number, first_ms, last_ms, time_origin, bytes, shift_ms)
       SELECT ${idOf}, board.id, 'mqtt:bench', ${START_MS} + k * 1000, 7, k, ${START_MS - 500} + k * 1000,
              ${START_MS - 500} + k * 1000, 'board clock', zeroblob(${BYTES}), 0 FROM count CROSS JOIN board;
       INSERT INTO numbered SELECT board, startup, number, id FROM message WHERE number > 0 ORDER BY 1, 2, 3;
       UPDATE hub SET value = (SELECT max(id) FROM message) WHERE key = 'numbered-until';
       UPDATE tally SET count = ${messages * boards.length} WHERE name = 'messages';
       UPDATE tally SET count = ${messages * boards.length * READINGS_PER_MESSAGE} WHERE name = 'readings';`,
    )
  database.transaction(() => {
    if (only === null) addMessages()
    const channels = database
      .prepare(
        `SELECT channel.id, channel.name, board.id - ${first[0]} AS place, calibration.ref, r.id % 1024 AS nth
         FROM channel JOIN board ON board.id = channel.board
           JOIN reading AS r ON r.channel = channel.id
           LEFT JOIN calibration ON calibration.id = board.name || '-' || channel.name || '-1' ORDER BY channel.id`,
      )
      .all()
      .filter(({ name }) => only === null || name === only)
    for (const { id, name, place, ref, nth } of channels) {
      const isJudged = ref !== null
      database.exec(
        `${K} INSERT INTO reading (channel, t_ms, id, signal, value, uncertainty, flag, calibration, why)
         SELECT ${id}, ${START_MS - 500} + k * 1000, (${boards.length} * k + ${place} + 1) * 1024 + ${nth},
                ${SIGNALS[name]}, ${VALUES[name]}, ${isJudged ? 0.05 : 'NULL'}, ${isJudged ? 1 : 2}, ${ref}, NULL FROM count`,
      )
      database.exec(
        `INSERT INTO unrolled VALUES (${id}, ${START_MS - 60_000}, ${START_MS + messages * 1000}) ON CONFLICT DO UPDATE SET to_ms = excluded.to_ms`,
      )
    }
  })()
  database.pragma('wal_checkpoint(TRUNCATE)')
  database.close()
  return messages
}

/** Works off what is due after a change. @returns readings that were looked at again */
export function recomputeAll(writer, keeper) {
  const appraise = appraiseWith(keeper.timelines)
  let rows = 0
  for (;;) {
    const done = writer.recomputeSome(appraise, 4000)
    if (done === null) return rows
    rows += done.rows
  }
}

export function rollAll(writer) {
  while (writer.rollSome(true) !== null);
}
