/**
 * The index of messages by board and time cost a commit as much as half a message. Readings are found by channel and time,
 * and lead to their messages.
 */
export const noIndexOnArrival = `
DROP INDEX message_of_board;
`
