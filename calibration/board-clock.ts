import { type Refusal, refuse } from './refusal.ts'

/** A moment known on both clocks. */
export interface SyncPoint {
  uptimeMs: number
  /** Unix time, ms */
  atMs: number
}

export interface BoardClock {
  /** how fast the board's clock runs against the hub's, parts per million; 0 when only one point is known */
  fastPpm: number
  /** false with one sync point: the rate is then assumed, not known */
  isRateKnown: boolean
  /** uptime to Unix time, ms, not rounded */
  timeAt(uptimeMs: number): number
}

/** A clock off by more than this is not a clock but a restart or a wrong point: an RC oscillator stays within a few %. */
const LARGEST_RATE_ERROR = 0.1

/**
 * The clock of a board that only counts milliseconds since it started: t = t₁ + (u − u₁)·(t₂ − t₁)/(u₂ − u₁).
 * @param syncs  one or more points of one start-up, rising; the first and the last are used
 * @returns a refusal when uptime or time do not both rise: the board restarted in between
 * @example 12 000 ms = 10:00:00 and 7 214 400 ms = 12:00:00: fast by 333 ppm; 3 613 200 ms is 11:00:00.000
 */
export function fitBoardClock(syncs: readonly SyncPoint[]): BoardClock | Refusal {
  const first = syncs[0]
  const last = syncs.at(-1)
  if (first === undefined || last === undefined)
    return refuse('E_POINTS_FEW', 'No sync point: the time is uncertain.')
  if (!syncs.every((sync) => Number.isFinite(sync.uptimeMs) && Number.isFinite(sync.atMs))) {
    return refuse('E_NOT_FINITE', 'A sync point is not a number.')
  }
  if (syncs.length === 1) {
    return { fastPpm: 0, isRateKnown: false, timeAt: (uptimeMs) => first.atMs + (uptimeMs - first.uptimeMs) }
  }
  const board = last.uptimeMs - first.uptimeMs
  const hub = last.atMs - first.atMs
  if (!(board > 0) || !(hub > 0)) {
    return refuse(
      'E_INTERVAL',
      'Uptime and time must both rise between sync points; the board has restarted in between.',
    )
  }
  if (Math.abs(board / hub - 1) > LARGEST_RATE_ERROR) {
    return refuse(
      'E_INTERVAL',
      `The board counted ${board} ms while ${hub} ms passed; that is no clock. One of the sync points is wrong.`,
    )
  }
  return {
    fastPpm: (board / hub - 1) * 1e6,
    isRateKnown: true,
    timeAt: (uptimeMs) => first.atMs + ((uptimeMs - first.uptimeMs) * hub) / board,
  }
}
