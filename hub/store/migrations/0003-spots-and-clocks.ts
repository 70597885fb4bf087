/**
 * Spot readings, and clocks put right afterwards. The time of a reading may move with its board's clock; what the probe
 * sent, and the bytes that say when the board thought it was, stay as they came. `shift_ms` of a message says by how much
 * it was moved, so that moving it back is exact.
 */
export const spotsAndClocks = `
CREATE TABLE spot (
  id TEXT PRIMARY KEY,
  survey TEXT NOT NULL,
  document TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX spot_of_survey ON spot (survey);

ALTER TABLE message ADD COLUMN shift_ms INTEGER NOT NULL DEFAULT 0;
CREATE INDEX message_of_board ON message (board, first_ms);

DROP TRIGGER signal_is_sacred;
CREATE TRIGGER signal_is_sacred BEFORE UPDATE OF channel, id, signal ON reading
BEGIN SELECT RAISE(ABORT, 'a signal is never altered'); END;
CREATE TRIGGER time_is_its_messages BEFORE UPDATE OF t_ms ON reading
WHEN NOT EXISTS (SELECT 1 FROM message WHERE message.id = NEW.id / 1024 AND NEW.t_ms BETWEEN first_ms AND last_ms)
BEGIN SELECT RAISE(ABORT, 'a signal is never altered, and moves in time only with its message'); END;

-- boards whose messages are to be moved to the times that the clock corrections of the surveys give them
CREATE TABLE reclock (board TEXT PRIMARY KEY) STRICT, WITHOUT ROWID;
`
