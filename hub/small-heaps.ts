import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'

/**
 * For a thread of the hub, on a computer with little memory: room for what is new is cleared more often instead of being
 * made larger. (The main thread's is set where node is started, with `--max-semi-space-size`.)
 */
export const SMALL_THREAD = { maxYoungGenerationSizeMb: 6 }

/** A heap may outgrow what is in use by so much before it is cleared; left to itself, it doubles and more. */
const GROWING_PERCENT = 50

/** Of all threads of the process, those that are still to be started too. */
export function keepHeapsSmall(): void {
  setFlagsFromString(`--heap-growing-percent=${GROWING_PERCENT}`)
}

/** How long after its start a thread is thought to have loaded what it needs. */
const LOADED_AFTER_MS = 500

/**
 * Gives back what loading the code left behind, once: about a quarter of the heap of a thread, which is otherwise kept
 * until something else fills it. Called by each thread for itself.
 */
export function clearAfterStart(): void {
  setTimeout(() => {
    try {
      setFlagsFromString('--expose-gc')
      runInNewContext('gc')()
    } catch {
      // another engine; then memory is given back when something needs it
    }
  }, LOADED_AFTER_MS).unref()
}
