/**
 * For a thread of the hub, on a computer with little memory: room for what is new is cleared more often instead of being
 * made larger. (The main thread's is set where node is started, with `--max-semi-space-size`.)
 */
export const SMALL_THREAD = { maxYoungGenerationSizeMb: 6 }
