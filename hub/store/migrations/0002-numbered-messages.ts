/**
 * Numbered messages in two shapes too, as readings are: an index over all of them would cost a commit one page to
 * write for each board in it. The newest are known from `message` itself; when readings are sealed they move here.
 */
export const numberedMessages = `
DROP INDEX message_once;

CREATE TABLE numbered (
  board INTEGER NOT NULL,
  startup INTEGER NOT NULL,
  number INTEGER NOT NULL,
  message INTEGER NOT NULL,
  PRIMARY KEY (board, startup, number)
) STRICT, WITHOUT ROWID;

INSERT INTO numbered SELECT board, startup, number, id FROM message WHERE number IS NOT NULL ORDER BY 1, 2, 3;
INSERT INTO hub VALUES ('numbered-until', (SELECT coalesce(max(id), 0) FROM message));
`
