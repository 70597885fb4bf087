import type { TrapNow } from './trap.ts'

export type TrapState = TrapNow['state']

/** In the last part of its time a trap is due; common practice, no source. */
export const DUE_IN_LAST_PART = 0.25

/**
 * State of a trap that is set, from when it must have been looked at. The hub and the page reckon alike, so that a page
 * that has lost the hub still says that a trap is overdue.
 * @param dueMs  null: it is closed
 */
export function trapStateAt(
  { setMs, dueMs, limitHours }: { setMs: number; dueMs: number | null; limitHours: number },
  nowMs: number,
): TrapState {
  if (dueMs === null) return 'closed'
  if (nowMs < setMs) return 'not-set-yet'
  if (nowMs >= dueMs) return 'overdue'
  return nowMs >= dueMs - DUE_IN_LAST_PART * limitHours * 3_600_000 ? 'due' : 'set'
}
