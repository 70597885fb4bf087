/**
 * The index of messages by board and time cost a commit as much as half a message. Readings are found by channel and time,
 * and lead to their messages; what is left are the few messages with an impossible clock.
 */
export const noIndexOnArrival = `
DROP INDEX message_of_board;
CREATE INDEX message_with_impossible_clock ON message (board, first_ms)
  WHERE time_origin = 'shifted to arrival' AND shift_ms = 0;
`
