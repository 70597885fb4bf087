/**
 * Readings are written twice, in two shapes. `inbox` takes them as they come, without an index, so that a commit
 * is one append. Every 25,000 rows or 15 seconds they move, sorted, into `reading`, which is keyed by channel and time,
 * so that a chart or a download reads neighbouring pages. `every_reading` is both together.
 *
 * A reading's id is its message's id × 1024 + its place in the message: from it one walks back to the bytes.
 */
export const first = `
CREATE TABLE hub (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID;

CREATE TABLE survey_revision (
  survey TEXT NOT NULL,
  revision INTEGER NOT NULL,
  at_ms INTEGER NOT NULL,
  why TEXT NOT NULL,
  document TEXT NOT NULL,
  PRIMARY KEY (survey, revision)
) STRICT, WITHOUT ROWID;

CREATE TABLE board (
  id INTEGER PRIMARY KEY,
  name TEXT NOT NULL UNIQUE,
  first_heard_ms INTEGER NOT NULL,
  about TEXT
) STRICT;

CREATE TABLE channel (
  id INTEGER PRIMARY KEY,
  board INTEGER NOT NULL REFERENCES board,
  name TEXT NOT NULL,
  unit TEXT NOT NULL,
  UNIQUE (board, name, unit)
) STRICT;

CREATE TABLE calibration (ref INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE) STRICT;

CREATE TABLE message (
  id INTEGER PRIMARY KEY,
  board INTEGER NOT NULL REFERENCES board,
  source TEXT NOT NULL,
  arrived_ms INTEGER NOT NULL,
  startup INTEGER,
  number INTEGER,
  first_ms INTEGER NOT NULL,
  last_ms INTEGER NOT NULL,
  time_origin TEXT NOT NULL,
  bytes BLOB NOT NULL
) STRICT;
CREATE UNIQUE INDEX message_once ON message (board, startup, number) WHERE number IS NOT NULL;

CREATE TABLE inbox (
  channel INTEGER NOT NULL,
  t_ms INTEGER NOT NULL,
  id INTEGER NOT NULL,
  signal REAL NOT NULL,
  value REAL,
  uncertainty REAL,
  flag INTEGER NOT NULL,
  calibration INTEGER,
  why TEXT
) STRICT;

CREATE TABLE reading (
  channel INTEGER NOT NULL,
  t_ms INTEGER NOT NULL,
  id INTEGER NOT NULL,
  signal REAL NOT NULL,
  value REAL,
  uncertainty REAL,
  flag INTEGER NOT NULL,
  calibration INTEGER,
  why TEXT,
  PRIMARY KEY (channel, t_ms, id)
) STRICT, WITHOUT ROWID;

CREATE TRIGGER signal_is_sacred BEFORE UPDATE OF channel, t_ms, id, signal ON reading
BEGIN SELECT RAISE(ABORT, 'a signal is never altered'); END;
CREATE TRIGGER reading_is_kept BEFORE DELETE ON reading
BEGIN SELECT RAISE(ABORT, 'a reading is never deleted'); END;
CREATE TRIGGER inbox_signal_is_sacred BEFORE UPDATE ON inbox
BEGIN SELECT RAISE(ABORT, 'a signal is never altered'); END;

CREATE VIEW every_reading AS
  SELECT channel, t_ms, id, signal, value, uncertainty, flag, calibration, why FROM reading
  UNION ALL
  SELECT channel, t_ms, id, signal, value, uncertainty, flag, calibration, why FROM inbox;

CREATE TABLE quarantine (
  id INTEGER PRIMARY KEY,
  arrived_ms INTEGER NOT NULL,
  source TEXT NOT NULL,
  board TEXT,
  code TEXT NOT NULL,
  message TEXT NOT NULL,
  bytes BLOB NOT NULL
) STRICT;

CREATE TABLE recompute (
  id INTEGER PRIMARY KEY,
  channel INTEGER NOT NULL,
  from_ms INTEGER NOT NULL,
  -- within from_ms, the first id that is still to be done
  from_id INTEGER NOT NULL DEFAULT 0,
  to_ms INTEGER NOT NULL
) STRICT;

-- spans whose readings have new neighbours, so that the quality tests of series are to be run over them
CREATE TABLE review (
  id INTEGER PRIMARY KEY,
  channel INTEGER NOT NULL,
  from_ms INTEGER NOT NULL,
  from_id INTEGER NOT NULL DEFAULT 0,
  to_ms INTEGER NOT NULL,
  -- 1: the rest of a span that has been begun, which reaches back no further
  is_rest INTEGER NOT NULL DEFAULT 0
) STRICT;

-- when a start-up of a board began: the earliest time any of its messages tells of
CREATE TABLE start_up (
  board INTEGER NOT NULL REFERENCES board,
  startup INTEGER NOT NULL,
  began_ms INTEGER NOT NULL,
  PRIMARY KEY (board, startup)
) STRICT, WITHOUT ROWID;

CREATE TABLE tally (name TEXT PRIMARY KEY, count INTEGER NOT NULL) STRICT, WITHOUT ROWID;
`
