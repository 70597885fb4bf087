/**
 * Of the neighbours of a probe the nearest twenty are asked, no longer all: where there may have been more, every reading is
 * reviewed again, so that what is stored is what would be found today.
 */
export const nearestNeighbours = `
INSERT INTO review (channel, from_ms, to_ms)
SELECT id, -8640000000000000, 8639999999999999 FROM channel WHERE (SELECT count(*) FROM board) > 20;
`
