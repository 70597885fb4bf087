import { setPriority } from 'node:os'

/** The kernel's “niceness” of a thread that may wait: a third of the share that one of 0 gets, where both want to run. */
const NICE = 5

/**
 * Puts the calling thread behind those that store what boards send, where there are fewer processors than work. Only
 * Linux sets this for a single thread; elsewhere it would be for the whole hub, and nothing is done.
 */
export function runAfterStoring(): void {
  if (process.platform !== 'linux') return
  try {
    setPriority(NICE)
  } catch {
    // a sandbox may forbid it; then all threads are alike, as before
  }
}
