/** The only place that asks the machine what time it is. */
export interface Clock {
  /** UTC, milliseconds since 1970 */
  nowMs(): number
}

export const systemClock: Clock = { nowMs: () => Date.now() }

/**
 * A clock that starts at `startMs` and runs `speed` times as fast as the machine's: for rehearsals and tests.
 * @param realStartMs the machine's time that corresponds to `startMs`
 */
export function rehearsalClock(startMs: number, speed: number, realStartMs: number): Clock {
  return { nowMs: () => Math.round(startMs + (Date.now() - realStartMs) * speed) }
}

/** RFC 3339, UTC, milliseconds. */
export function rfc3339(ms: number): string {
  return new Date(ms).toISOString()
}
