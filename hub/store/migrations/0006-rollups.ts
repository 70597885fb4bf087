/**
 * What the readings of each minute, ten minutes and hour of a channel come to, so that a chart of a year reads thousands of rows
 * in place of millions. Rollups follow from `reading`, never from the inbox, and are brought up to date now and then,
 * not with every commit: an SD card wears. `unrolled` says where they are out of date; there the readings themselves
 * are read. Everything that is in the file already begins as unrolled.
 */
export const rollups = `
CREATE TABLE rollup (
  -- 60000, 600000 or 3600000
  level_ms INTEGER NOT NULL,
  channel INTEGER NOT NULL,
  -- when the minute, ten minutes or hour begin
  t_ms INTEGER NOT NULL,
  n INTEGER NOT NULL,
  -- of these with a value: those that passed or were not evaluated, and those that are suspect
  clean INTEGER NOT NULL,
  suspect INTEGER NOT NULL,
  -- of these with a value that has not failed: how many, their sum, the lowest and the highest
  valued INTEGER NOT NULL,
  sum REAL NOT NULL,
  low REAL,
  high REAL,
  uncertainty REAL,
  -- the worst flag, where not evaluated (2) counts as 0
  worst INTEGER NOT NULL,
  first_ms INTEGER NOT NULL,
  last_ms INTEGER NOT NULL,
  -- the longest time between two readings of it that follow one another
  pause_ms INTEGER NOT NULL,
  PRIMARY KEY (level_ms, channel, t_ms)
) STRICT, WITHOUT ROWID;

CREATE TABLE unrolled (
  channel INTEGER NOT NULL,
  -- the beginning of a minute
  from_ms INTEGER NOT NULL,
  -- inclusive
  to_ms INTEGER NOT NULL,
  PRIMARY KEY (channel, from_ms)
) STRICT, WITHOUT ROWID;

INSERT INTO unrolled
  SELECT id, first_ms - (first_ms % 60000 + 60000) % 60000, last_ms
  FROM (SELECT id, (SELECT min(t_ms) FROM reading WHERE channel = channel.id) AS first_ms,
               (SELECT max(t_ms) FROM reading WHERE channel = channel.id) AS last_ms FROM channel)
  WHERE first_ms IS NOT NULL;

-- almost no message is among these, so that asking for them costs next to nothing
CREATE INDEX message_with_impossible_time ON message (board, first_ms, last_ms, shift_ms)
  WHERE time_origin = 'shifted to arrival';
`
