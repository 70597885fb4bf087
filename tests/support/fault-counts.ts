import { appendFileSync } from 'node:fs'

/** What one fault test saw; `npm run soak` adds them up. */
export interface FaultCounts {
  what: string
  times: number
  sent: number
  acknowledged: number
  stored: number
  doubled: number
  lost: number
  /** the most memory the hub took, where that was looked at */
  megabytes?: number
}

/** Notes what was counted, where somebody asked for it. */
export function tellCounts(counts: FaultCounts): void {
  const file = process.env['TUSSOCK_COUNTS']
  if (file) appendFileSync(file, `${JSON.stringify(counts)}\n`)
}

/** How often a fault is made: as often as the checks have time for, or as much more as `TUSSOCK_TIMES` says. */
export function times(inChecks: number): number {
  return inChecks * Number(process.env['TUSSOCK_TIMES'] ?? 1)
}

/** for tests that may be asked to do more than the checks do */
export const LONG_MS = 600_000
