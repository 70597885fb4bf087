/** Simulated time: the only place of the rehearsal that asks what time it is. */
export interface RehearsalClock {
  readonly startMs: number
  readonly speed: number
  /** simulated epoch milliseconds */
  now(): number
  /** real milliseconds, for time-outs that concern the hub and not the habitat */
  realNow(): number
  /** real milliseconds from now until a simulated moment; never negative */
  realMsUntil(simulatedMs: number): number
}

/**
 * @param realStartMs  the real epoch milliseconds at which simulated time was `startMs`
 * @param speed  simulated seconds per real second
 */
export function rehearsalClock(
  startMs: number,
  realStartMs: number,
  speed: number,
  realNow: () => number = Date.now,
): RehearsalClock {
  const now = () => startMs + (realNow() - realStartMs) * speed
  return {
    startMs,
    speed,
    now,
    realNow,
    realMsUntil: (simulatedMs) => Math.max(0, (simulatedMs - now()) / speed),
  }
}
