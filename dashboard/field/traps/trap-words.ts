import type { TrapNow } from '../../../hub/contract/trap.ts'
import { trapStateAt } from '../../../hub/contract/trap-state.ts'
import { spanText } from '../../format-time.ts'

/** The state of a trap at a moment, by the limit that the hub has told: right also while the hub is away. */
export function stateNow(trap: TrapNow, nowMs: number): TrapNow['state'] {
  return trapStateAt(
    { setMs: Date.parse(trap.trap.setAt), dueMs: trap.dueMs, limitHours: trap.limitHours },
    nowMs,
  )
}

/** `overdue for 2 h 10 min`, `to be looked at within 3 h`, `looked at last, and taken up`. */
export function dueWords(trap: TrapNow, nowMs: number): string {
  const state = stateNow(trap, nowMs)
  if (state === 'closed' || trap.dueMs === null) return 'taken up'
  if (state === 'not-set-yet') return `set in ${spanText(Date.parse(trap.trap.setAt) - nowMs)}`
  const over = nowMs - trap.dueMs
  if (state === 'overdue') return over < 60_000 ? 'overdue now' : `overdue for ${spanText(over)}`
  return `to be looked at within ${spanText(-over)}`
}
