/** Keys of boards, as hashes: what is in the file opens nothing. */
export const boardKeys = `
CREATE TABLE board_key (
  board TEXT PRIMARY KEY,
  hash BLOB NOT NULL,
  made_ms INTEGER NOT NULL
) STRICT, WITHOUT ROWID;
`
