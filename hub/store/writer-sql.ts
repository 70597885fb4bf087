import type { SqliteDatabase, SqliteStatement } from './open-database.ts'

/** of a reading, all that follows from its signal */
export const VALUE_COLUMNS = 'value, uncertainty, flag, calibration, why'
export const READING_COLUMNS = `channel, t_ms, id, signal, ${VALUE_COLUMNS}`
export const MESSAGE_COLUMNS =
  'id, board, source, arrived_ms, startup, number, first_ms, last_ms, time_origin, bytes, shift_ms'

/**
 * Sorting by one number takes half as long as by three. It need not be exact: rows find their place in any order, only sooner
 * when neighbours follow one another.
 */
const TIMES_AT_MOST = 2 ** 42

/** Every statement of the writer, prepared once. */
export function prepareWriterSql(database: SqliteDatabase) {
  const sql = (text: string): SqliteStatement => database.prepare(text)
  return {
    countInbox: sql('SELECT count(*) FROM inbox').pluck(),
    findBoard: sql('SELECT id FROM board WHERE name = ?').pluck(),
    addBoard: sql('INSERT OR IGNORE INTO board (name, first_heard_ms) VALUES (?, ?)'),
    addStartUp: sql(
      `INSERT INTO start_up (board, startup, began_ms) VALUES (?, ?, ?)
       ON CONFLICT (board, startup) DO UPDATE SET began_ms = excluded.began_ms WHERE excluded.began_ms < began_ms`,
    ),
    setAbout: sql('UPDATE board SET about = ? WHERE id = ?'),
    findChannel: sql('SELECT id FROM channel WHERE board = ? AND name = ? AND unit = ?').pluck(),
    addChannel: sql('INSERT OR IGNORE INTO channel (board, name, unit) VALUES (?, ?, ?)'),
    findCalibration: sql('SELECT ref FROM calibration WHERE id = ?').pluck(),
    addCalibration: sql('INSERT OR IGNORE INTO calibration (id) VALUES (?)'),
    lastMessageId: sql('SELECT coalesce(max(id), 0) FROM message').pluck(),
    signalsInInbox: sql('SELECT id, signal FROM inbox WHERE rowid BETWEEN ? AND ?'),
    signalsLeftInInbox: sql('SELECT id, signal FROM inbox WHERE id BETWEEN ? AND ?'),
    signalsSealed: sql(
      `SELECT reading.id, signal FROM message
       JOIN channel ON channel.board = message.board
       JOIN reading ON reading.channel = channel.id AND t_ms BETWEEN first_ms AND last_ms
         AND reading.id BETWEEN @firstId AND @lastId
       WHERE message.id = @message`,
    ),
    addQuarantine: sql(
      'INSERT INTO quarantine (arrived_ms, source, board, code, message, bytes) VALUES (?, ?, ?, ?, ?, ?)',
    ),
    addTally: sql(
      'INSERT INTO tally (name, count) VALUES (?, ?) ON CONFLICT (name) DO UPDATE SET count = count + excluded.count',
    ),
    addReview: sql('INSERT INTO review (channel, from_ms, to_ms) VALUES (?, ?, ?)'),
    moveInbox: sql(
      `INSERT INTO reading (${READING_COLUMNS}) SELECT ${READING_COLUMNS} FROM inbox ORDER BY channel * ${TIMES_AT_MOST} + t_ms`,
    ),
    clearInbox: sql('DELETE FROM inbox'),
    latestSurveys: sql(
      `SELECT document FROM survey_revision AS r
       WHERE revision = (SELECT max(revision) FROM survey_revision WHERE survey = r.survey) ORDER BY survey`,
    ).pluck(),
    addRevision: sql(
      `INSERT INTO survey_revision (survey, revision, at_ms, why, document)
       VALUES (?, (SELECT coalesce(max(revision), 0) + 1 FROM survey_revision WHERE survey = ?), ?, ?, ?)`,
    ),
    lastRevisions: sql(
      'SELECT document, why FROM survey_revision WHERE survey = ? ORDER BY revision DESC LIMIT 2',
    ),
    channelsNamed: sql(
      `SELECT channel.id FROM channel JOIN board ON board.id = channel.board WHERE board.name = ? AND channel.name = ?`,
    ).pluck(),
    addRecompute: sql('INSERT INTO recompute (channel, from_ms, to_ms) VALUES (?, ?, ?)'),
    nextRecompute: sql(
      `SELECT recompute.id, recompute.channel, from_ms, from_id, to_ms, board.name AS board,
              channel.name, channel.unit
       FROM recompute JOIN channel ON channel.id = recompute.channel JOIN board ON board.id = channel.board
       ORDER BY recompute.id LIMIT 1`,
    ),
    allRecompute: sql('SELECT channel, from_ms, to_ms FROM recompute'),
    endRecompute: sql('DELETE FROM recompute WHERE id = ?'),
    advanceRecompute: sql('UPDATE recompute SET from_ms = ?, from_id = ? WHERE id = ?'),
    getSetting: sql('SELECT value FROM hub WHERE key = ?').pluck(),
    setSetting: sql(
      'INSERT INTO hub (key, value) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value',
    ),
  }
}
